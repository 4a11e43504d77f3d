/** What stood at a hole, as bands on paper: stacked from the youngest up, each as high as it is probable. */
import type { EnvironmentResult, Results } from '@stillstand/campaign/results';
import { type Scale, type Sediment, sedimentOf, sedimentOfUnit } from '@stillstand/output/drawing';
import { betweenAges, spellName } from '@stillstand/output/words';

type Spell = EnvironmentResult['spells'][number];
type Point = readonly [x: number, y: number];

interface Band {
  spell: Spell;
  /** As it is written on the band where it has room. */
  name: string;
  /** Null where no layer is of that time: blank. */
  sediment: Sediment | null;
  /** Closed, from the lower left; y down from the upper edge of the bands. */
  outline: Point[];
}

export interface HoleBands {
  hole: string;
  bands: Band[];
  /** Between one band and the next. */
  boundaries: Point[][];
  beds: { at: number; x1: number; x2: number; lane: number; row_id: string }[];
  /** How many lanes the beds take. */
  lanes: number;
  dates: { row_id: string; x: number }[];
}

/** Between two places of a boundary, points. */
const FINENESS = 1.2;
/** Less is not drawn. */
const LEAST = 0.004;

function sedimentOfSpell(results: Results, hole: string, { sediment, units }: Spell): Sediment | null {
  if (sediment === null) return null;
  const rows = new Set(units.map(({ unit_row_id }) => unit_row_id));
  const unit = results.holes
    .find((each) => each.hole === hole)
    ?.units.find((each) => rows.has(each.row_id) && each.sediment === sediment);
  return unit === undefined ? sedimentOf(sediment) : sedimentOfUnit(unit);
}

export function holeBands(results: Results, of: EnvironmentResult, time: Scale, height: number): HoleBands {
  const x1 = time(time.from);
  const x2 = time(time.to);
  const count = Math.max(2, Math.ceil((x2 - x1) / FINENESS) + 1);
  const xs = Array.from({ length: count }, (_, i) => x1 + (i / (count - 1)) * (x2 - x1));
  const ages = xs.map((x) => time.from + (x - x1) / time.k);
  const shares = of.spells.map(({ probability }) =>
    ages.map((age) => betweenAges(of.ages_cal_bp, probability, age)),
  );
  // Sums of the youngest so many.
  const under = [xs.map(() => 0)];
  for (const own of shares) under.push(own.map((p, i) => Math.min(1, under.at(-1)![i]! + p)));
  const y = (share: number): number => height * (1 - share);
  const bands = of.spells.flatMap((spell, k) =>
    runs(shares[k]!).map(
      (run): Band => ({
        spell,
        name: spellName(spell),
        sediment: spell.kind === 'environment' ? sedimentOfSpell(results, of.hole, spell) : null,
        outline: [
          ...run.map((i): Point => [xs[i]!, y(under[k]![i]!)]),
          ...[...run].reverse().map((i): Point => [xs[i]!, y(under[k + 1]![i]!)]),
        ],
      }),
    ),
  );
  const boundaries = of.spells.slice(1).flatMap((_, k) => {
    const line = under[k + 1]!;
    // Once where several have nothing between them.
    const isDrawn = line.map((share, i) => share > LEAST && share < 1 - LEAST && shares[k]![i]! > LEAST);
    return runs(isDrawn.map(Number)).map((run) => run.map((i): Point => [xs[i]!, y(line[i]!)]));
  });
  const { beds, lanes } = bedsInLanes(of, time);
  return { hole: of.hole, bands, boundaries, beds, lanes, dates: datesOf(results, of.hole, time) };
}

/** Stretches of places where there is something, with a neighbour on each side so that bands meet. */
function runs(values: readonly number[]): number[][] {
  const out: number[][] = [];
  let open: number[] = [];
  const close = (): void => {
    if (open.length > 0) {
      const [first, last] = [open[0]!, open.at(-1)!];
      const run = [
        ...(first > 0 ? [first - 1] : []),
        ...open,
        ...(last < values.length - 1 ? [last + 1] : []),
      ];
      if (run.length > 1) out.push(run);
    }
    open = [];
  };
  for (const [i, value] of values.entries()) {
    if (value > LEAST) open.push(i);
    else close();
  }
  close();
  return out;
}

/** Beds laid down at once, those whose ranges overlap in lanes one over the other. */
function bedsInLanes(of: EnvironmentResult, time: Scale): Pick<HoleBands, 'beds' | 'lanes'> {
  const clamp = (age: number): number => time(Math.max(time.to, Math.min(time.from, age)));
  const ends: number[] = [];
  const beds = of.beds
    .filter(({ age_cal_bp: { median } }) => median <= time.from && median >= time.to)
    .map(({ age_cal_bp, unit_row_id }) => ({
      at: clamp(age_cal_bp.median),
      x1: clamp(age_cal_bp.upper95),
      x2: clamp(age_cal_bp.lower95),
      row_id: unit_row_id,
    }))
    .sort((a, b) => a.x1 - b.x1)
    .map((bed) => {
      const free = ends.findIndex((end) => end < bed.x1 - 2);
      const lane = free === -1 ? ends.length : free;
      ends[lane] = bed.x2;
      return { ...bed, lane };
    });
  return { beds, lanes: ends.length };
}

const datesOf = (results: Results, hole: string, time: Scale): HoleBands['dates'] =>
  results.dates
    .filter((date) => date.hole === hole && date.status !== 'rejected')
    .filter(({ median_cal_bp: age }) => age <= time.from && age >= time.to)
    .map(({ row_id, median_cal_bp }) => ({ row_id, x: time(median_cal_bp) }));
