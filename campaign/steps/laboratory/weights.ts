/** Loss on ignition, water and densities of samples, from the weights among their measurements. */
import { type LogPoint, type MeasurementResult, traceId } from '@stillstand/campaign/results';
import {
  fromPanWeights,
  type LaboratoryUnit,
  type PanWeights,
  panWeight,
  WEIGHED_NAMES,
  type Weighed,
  type Weighing,
} from '@stillstand/science/laboratory';
import type { Complain } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellWeighed } from '../words/laboratory.ts';
import {
  analysisOf,
  CUBIC_CM,
  GRAMS,
  inUnit,
  type MeasurementRow,
  type Placed,
  unitOf,
} from './at-one-place.ts';

const weighedPan = step('pan weights', ({ weights }: { weights: PanWeights }) => fromPanWeights(weights));

type Name = keyof typeof WEIGHED_NAMES;

/** Which weights each number is made of, where they were weighed. */
const MADE_OF: Readonly<Record<Name, readonly (keyof PanWeights)[]>> = {
  loss_on_ignition: ['pan', 'dry', 'burnt'],
  water_content: ['pan', 'wet', 'dry'],
  dry_density: ['pan', 'dry', 'volume'],
  wet_density: ['pan', 'wet', 'volume'],
};
const UNITS: Readonly<Record<Name, string>> = {
  loss_on_ignition: '%',
  water_content: '%',
  dry_density: 'g/cm³',
  wet_density: 'g/cm³',
};

/** A number made of weights, where they lie. */
export interface WeighedValue {
  property: string;
  unit: string;
  hole: string;
  point: LogPoint;
}

/** `rows`: the weights, which are no quantities along the hole. */
export function weighedValues(
  run: Runner,
  measurements: readonly Placed[],
  complain: Complain<MeasurementRow>,
): { made: WeighedValue[]; rows: ReadonlySet<string> } {
  const weights = measurements.flatMap((placed) => {
    const of = panWeight(placed.row.property);
    return of === null || !isOfKind(placed, of === 'volume' ? CUBIC_CM : GRAMS) ? [] : [{ placed, of }];
  });
  const made: WeighedValue[] = [];
  const rows = new Set<string>();
  for (const group of Map.groupBy(weights, ({ placed }) => analysisOf(placed)).values()) {
    const by = new Map<keyof PanWeights, Placed>();
    for (const { placed, of } of group) {
      const { row } = placed;
      rows.add(row.row_id);
      if (row.value === null || row.qualifier !== null) continue;
      const before = by.get(of);
      if (before === undefined) by.set(of, placed);
      else
        complain(
          row,
          'weight-twice',
          'property',
          `${row.property} ${row.value} and ${before.row.value}`,
          'each weight of a pan once',
          'Remove one, or give each pan a batch of its own. The first is used until then.',
          'warning',
        );
    }
    const [first] = group;
    const of = (name: keyof PanWeights): Weighing | null => weighing(by.get(name), name);
    const given: PanWeights = {
      pan: of('pan'),
      wet: of('wet'),
      dry: of('dry'),
      burnt: of('burnt'),
      volume: of('volume'),
    };
    const known = run.untold(weighedPan, { weights: run.plain(given) });
    for (const { severity, at, found, expected, fix } of known.value.faults)
      complain(
        (by.get(at) ?? first!.placed).row,
        'impossible-weight',
        'value',
        found,
        expected,
        fix,
        severity,
      );
    made.push(...numbersOf(run, known, first!.placed, by));
  }
  return { made, rows };
}

/** One without a unit is taken to have it: a name that says a weight says so. */
const isOfKind = (placed: Placed, unit: LaboratoryUnit): boolean =>
  placed.row.unit === null || unitOf(placed)?.kind === unit.kind;

function weighing(placed: Placed | undefined, name: keyof PanWeights): Weighing | null {
  if (placed === undefined) return null;
  const to = name === 'volume' ? CUBIC_CM : GRAMS;
  const { value, sigma } = inUnit(placed, unitOf(placed) ?? to, to);
  return { value: value!, sigma };
}

function numbersOf(
  run: Runner,
  { value: { weighed } }: Known<{ weighed: Weighed }>,
  { row, result }: Placed,
  by: ReadonlyMap<keyof PanWeights, Placed>,
): WeighedValue[] {
  return (Object.keys(WEIGHED_NAMES) as Name[]).flatMap((name) => {
    const number = weighed[name];
    if (number === null) return [];
    const property = WEIGHED_NAMES[name];
    const trace = traceId.weighed(row.row_id, property);
    const parts = MADE_OF[name].flatMap((of) => by.get(of)?.known ?? []);
    run.part(trace, number, tellWeighed(property, UNITS[name], number, result), parts);
    const at = placeIn(result);
    if (at === null) return [];
    const { hole, ...where } = at;
    return [
      {
        property,
        unit: UNITS[name],
        hole,
        point: { trace, ...where, ...number, qualifier: null, computed: 'from_weights' as const },
      },
    ];
  });
}

/** Null where it has no depth in a hole. */
export function placeIn({
  hole,
  sample,
  depth_m,
  thickness_m,
}: MeasurementResult): (Pick<LogPoint, 'sample' | 'depth_m' | 'thickness_m'> & { hole: string }) | null {
  return hole === null || depth_m === null ? null : { hole, sample, depth_m, thickness_m };
}
