/** What is computed of the demo's environments through time against what is true of them. */
import type { EnvironmentResult, LineThroughTime, Results } from '@stillstand/campaign/results';
import type { DemoTruth } from '@stillstand/demo';
import type { Range } from '@stillstand/science/base';
import { joined } from './joined.ts';
import { add, addSaid, type Said, type Share, share, tenths } from './shares.ts';

type TrueColumn = DemoTruth['environments']['columns'][number];
type TrueLayer = TrueColumn['layers'][number];

export interface Recovery {
  contacts: Share;
  /** True environments at the ages asked: sum of their probabilities, and how many have 0.05 or more. */
  probability: { sum: number; of: number };
  atLeast5: Share;
  said: Said[];
  edge: Share;
  stood: Share;
  /** True longest time against that with a probability of 0.95. */
  atLeast: Share;
  surface: Share;
  /** Probability that the ground kept up, against whether it did. */
  keptUp: { said: number; did: boolean }[];
  lines: string[];
}

const AGES = 40;
const isIn = (value: number, { lower95, upper95 }: Range): boolean => value >= lower95 && value <= upper95;
const words = (value: number, range: Range): string =>
  `${value.toFixed(0)}; ${range.median.toFixed(0)} (${range.lower95.toFixed(0)} to ${range.upper95.toFixed(0)})${isIn(value, range) ? '' : ', missed'}`;
const topOf = ({ knots }: TrueLayer): number => knots[0]!.age_cal_bp;
const baseOf = ({ knots }: TrueLayer): number => knots.at(-1)!.age_cal_bp;

export function recovery(
  { environments, lines_through_time }: Pick<Results, 'environments' | 'lines_through_time'>,
  truth: DemoTruth,
): Recovery {
  const found: Recovery = {
    contacts: share(),
    probability: { sum: 0, of: 0 },
    atLeast5: share(),
    said: tenths(),
    edge: share(),
    stood: share(),
    atLeast: share(),
    surface: share(),
    keptUp: [],
    lines: [],
  };
  for (const column of truth.environments.columns) {
    const result = environments.find(({ hole }) => hole === column.hole);
    if (result === undefined) throw new RangeError(`no environments of ${column.hole}`);
    contacts(found, column, result);
    probabilities(found, column, result, truth);
    keptUp(found, column, result, truth);
  }
  for (const line of lines_through_time) {
    edge(found, line, truth);
    stood(found, line, truth);
  }
  return found;
}

const spellsOf = ({ spells }: EnvironmentResult, { layers }: TrueColumn) =>
  spells.flatMap((spell, i) => {
    if (spell.kind !== 'environment') return [];
    const of = layers.filter(({ unit }) => spell.units.some((each) => each.unit === unit));
    // The lowest layer, whose base was not reached, has no true age.
    return of.length === 0 ? [] : [{ spell, above: spells[i - 1], of }];
  });

/** When each spell began; when it ended, where what follows is of no layer. */
function contacts(found: Recovery, column: TrueColumn, result: EnvironmentResult): void {
  for (const { spell, above, of } of spellsOf(result, column)) {
    const tell = (what: string, age: number, range: Range | null): void => {
      if (range === null) return;
      add(found.contacts, isIn(age, range));
      found.lines.push(`${column.hole}, ${spell.environment}, ${what} ${words(age, range)}`);
    };
    tell('began', baseOf(of.at(-1)!), spell.began_cal_bp);
    if (above?.kind !== 'environment') tell('ended', topOf(of[0]!), spell.ended_cal_bp);
  }
}

function probabilities(
  found: Recovery,
  column: TrueColumn,
  result: EnvironmentResult,
  truth: DemoTruth,
): void {
  const { environmentAt, surfaceAt } = truth.environments;
  const [young, old] = [topOf(column.layers[0]!), baseOf(column.layers.at(-1)!)];
  const inside = [...result.ages_cal_bp.keys()].filter(
    (i) => result.ages_cal_bp[i]! >= young && result.ages_cal_bp[i]! < old,
  );
  for (let n = 0; n < AGES; n++) {
    const i = inside[Math.floor(((n + 0.5) * inside.length) / AGES)]!;
    const age = result.ages_cal_bp[i]!;
    const is = environmentAt(column.hole, age);
    const said = new Map<string | null, number>();
    for (const { kind, environment, probability } of result.spells) {
      const name = kind === 'environment' ? environment : null;
      said.set(name, (said.get(name) ?? 0) + probability[i]!);
    }
    found.probability.sum += said.get(is) ?? 0;
    found.probability.of += 1;
    add(found.atLeast5, (said.get(is) ?? 0) >= 0.05);
    for (const [name, probability] of said)
      if (probability > 0) addSaid(found.said, probability, name === is);
    const height = surfaceAt(column.hole, age);
    const { known, median, lower95, upper95 } = result.surface;
    if (height !== null && known[i]! >= 0.5)
      add(found.surface, isIn(height, { median: median[i]!, lower95: lower95[i]!, upper95: upper95[i]! }));
  }
}

function keptUp(found: Recovery, column: TrueColumn, result: EnvironmentResult, truth: DemoTruth): void {
  for (const { spell, of } of spellsOf(result, column)) {
    if (spell.against_sea === null) continue;
    const [top, base] = [of[0]!.knots[0]!, of.at(-1)!.knots.at(-1)!];
    const did =
      top.height_m - base.height_m >= truth.level_m(top.age_cal_bp) - truth.level_m(base.age_cal_bp);
    const { kept_up: said } = spell.against_sea;
    found.keptUp.push({ said, did });
    found.lines.push(
      `${column.hole}, ${spell.environment} ${did ? 'kept up' : 'did not keep up'}: ${said.toFixed(2)}`,
    );
  }
}

function edge(found: Recovery, line: LineThroughTime, truth: DemoTruth): void {
  if (line.edge === null) return;
  const { ages_cal_bp, lower95, upper95, median, between } = line.edge;
  const along = truth.environments.columns.flatMap(({ hole, along_m }) => {
    const on = line.past_sections[0]!.holes.find((each) => each.hole === hole);
    return on === undefined ? [] : [{ is: along_m, on: on.along_m }];
  });
  const onLine = (at: number): number => {
    const next = Math.max(
      1,
      along.findIndex(({ is }) => is >= at),
    );
    const [a, b] = [along[next - 1]!, along[next]!];
    return a.on + ((at - a.is) / (b.is - a.is)) * (b.on - a.on);
  };
  for (const [i, age] of ages_cal_bp.entries()) {
    const at = truth.environments.edgeAt(age);
    if (!Number.isFinite(at)) continue;
    const range = { median: median[i]!, lower95: lower95[i]!, upper95: upper95[i]! };
    const isHeld = isIn(onLine(at), range);
    add(found.edge, isHeld);
    if (!isHeld || i % 10 === 0)
      found.lines.push(
        `edge at ${age} cal BP, m: ${words(onLine(at), range)}; between holes ${between[i]!.toFixed(2)}`,
      );
  }
}

function stood(found: Recovery, line: LineThroughTime, truth: DemoTruth): void {
  for (const { environment, unbroken_yr, longest_in, at_least_yr } of line.stood) {
    const inOne = longest(truth, environment, longest_in);
    add(found.stood, isIn(inOne, unbroken_yr));
    add(found.atLeast, longest(truth, environment, null) >= at_least_yr);
    found.lines.push(
      `${environment} stood unbroken in ${longest_in}, yr: ${words(inOne, unbroken_yr)}; at least ${at_least_yr.toFixed(0)}`,
    );
  }
}

/** True longest time without a break, in one hole or in any. */
const longest = (truth: DemoTruth, environment: string, hole: string | null): number =>
  joined(
    truth.environments.columns
      .filter((column) => hole === null || column.hole === hole)
      .flatMap(({ layers }) => layers.filter((layer) => layer.environment === environment))
      .map((layer) => [topOf(layer), baseOf(layer)] as const),
  ).unbroken;
