/**
 * Correlations proposed between neighbouring holes of a site. Results alone: a proposal is in the document only once a
 * person has accepted or refused it. What is accepted stays in the alignment, what is refused is left out of it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { hasEnded } from '@stillstand/campaign/holes';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { HoleResult, MeasurementResult, ProposalResult } from '@stillstand/campaign/results';
import type { ComputationSettings } from '@stillstand/campaign/settings';
import {
  type CorrelateInput,
  type CorrelationSettings,
  correlate,
  correlationDefaults,
  type Pair,
  type ProposedTie,
} from '@stillstand/science/correlate';
import { type Dates, roleOf } from '../ages/dates.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { comparedColumn, type PlacedDate, type PlacedValue } from './compared-column.ts';
import type { FoundCorrelation } from './found-correlation.ts';
import type { Samples } from './samples.ts';

const proposedTies = step(
  'proposed correlations',
  ({ input, settings }: { input: CorrelateInput; settings: CorrelationSettings }) =>
    correlate(input, settings).ties,
);

/** The word by which a setting asks for ages to be compared. */
const AGES = 'ages';

/** `across`: between the two on either side of holes that go on, which are not described whole; asked for by what lies below these. */
export function proposals(
  run: Runner,
  campaign: Campaign,
  settings: ComputationSettings,
  holes: readonly HoleResult[],
  known: {
    /** Accepted and refused. */
    decided: readonly FoundCorrelation[];
    samples: Samples;
    measurements: readonly MeasurementResult[];
    dates: Dates;
  },
): { made: ProposalResult[]; across: ProposalResult[] } {
  const { decided, samples, measurements, dates } = known;
  const { correlation_by: by } = settings;
  const placed = datesByHole(campaign, samples, dates);
  const values = Map.groupBy(
    measurements.flatMap((measured) => {
      const { hole, depth_m, property, value, unit, qualifier } = measured;
      if (hole === null || depth_m === null || value === null || qualifier !== null) return [];
      if (!by.includes(property.trim().toLowerCase())) return [];
      return [
        {
          hole,
          property: `${property.trim().toLowerCase()}, ${unit ?? ''}`,
          value,
          sigma: measured.sigma ?? 0,
          depth_m: depth_m.value,
          thickness_m: measured.thickness_m ?? 0,
        } satisfies PlacedValue & { hole: string },
      ];
    }),
    ({ hole }) => hole,
  );
  const columns = new Map(
    holes.map((hole) => [
      hole.hole,
      comparedColumn(hole, placed.get(hole.hole) ?? [], values.get(hole.hole) ?? [], by.includes(AGES)),
    ]),
  );
  const used = run.plain<CorrelationSettings>({
    ...correlationDefaults,
    years_per_m: settings.correlation_years_per_m,
    clear_margin: settings.correlation_margin,
  });
  const between = ([a, b]: [HoleResult, HoleResult]): ProposalResult[] => {
    const known = decided.flatMap((found) => {
      const pair = placesIn(found, a, b);
      return pair === null ? [] : [{ ...found, pair }];
    });
    const ties = run.untold(proposedTies, {
      input: run.plain<CorrelateInput>({
        a: columns.get(a.hole)!,
        b: columns.get(b.hole)!,
        distance_m: a.section_m === null || b.section_m === null ? null : Math.abs(a.section_m - b.section_m),
        fixed: known.filter(({ isAccepted }) => isAccepted).map(({ pair }) => pair),
        forbidden: known.filter(({ isAccepted }) => !isAccepted).map(({ pair }) => pair),
      }),
      settings: used,
    });
    return ties.value.filter(({ areBasesSeen }) => areBasesSeen).map((tie) => resultOf(tie, a, b));
  };
  const pairs = neighbours(holes);
  const whole = neighbours(holes.filter(({ state }) => !goesOn(state)));
  return {
    made: pairs.flatMap(between),
    across: whole.filter(([a, b]) => !pairs.some(([c, d]) => a === c && b === d)).flatMap(between),
  };
}

/** Whether a hole will be deeper than it is; one whose state is not said is taken for finished. */
export const goesOn = (state: HoleResult['state']): boolean => state !== null && !hasEnded(state);

/** Names in the setting that nothing measured has. */
export function neverMeasured(
  campaign: Campaign,
  { correlation_by }: ComputationSettings,
  measurements: readonly MeasurementResult[],
): Problem[] {
  const known = new Set(measurements.map(({ property }) => property.trim().toLowerCase()));
  const unknown = correlation_by.filter((name) => name !== AGES && !known.has(name));
  const row = campaign.rows.settings.find(({ name }) => name === 'correlation_by');
  if (unknown.length === 0 || row === undefined) return [];
  return [
    problem({
      severity: 'warning',
      code: 'correlation-by-nothing',
      table: 'settings',
      row_id: row.row_id,
      line: campaign.lines.get(row.row_id) ?? null,
      label: 'correlation by',
      column: 'value',
      found: unknown.join(', '),
      expected: [AGES, ...known].join(', '),
      fix: 'Write the property as the measurements have it. Until then correlations are proposed without it.',
    }),
  ];
}

/** Holes of one site with a described column, each with the next along the section; in the order of the table where a position is missing. */
function neighbours(holes: readonly HoleResult[]): [HoleResult, HoleResult][] {
  const described = holes.filter(({ units }) => units.length > 0);
  return [...Map.groupBy(described, ({ site }) => site).values()].flatMap((ofSite) => {
    const isPlaced = ofSite.every(({ section_m }) => section_m !== null);
    const along = isPlaced ? ofSite.toSorted((a, b) => a.section_m! - b.section_m!) : ofSite;
    return along.slice(1).map((hole, i): [HoleResult, HoleResult] => [along[i]!, hole]);
  });
}

/** Places of the two units in the columns of these two holes; null where it is between others. */
function placesIn(
  { a, b, hole_a, hole_b }: FoundCorrelation,
  one: HoleResult,
  other: HoleResult,
): Pair | null {
  const isAsNamed = hole_a === one.hole && hole_b === other.hole;
  if (!isAsNamed && !(hole_a === other.hole && hole_b === one.hole)) return null;
  const [first, second] = isAsNamed ? [a, b] : [b, a];
  const place = ({ units }: HoleResult, row_id: string): number =>
    units.findIndex((unit) => unit.row_id === row_id);
  return [place(one, first.row_id), place(other, second.row_id)];
}

function resultOf(
  { a, b, margin, isClear, otherwise, parts }: ProposedTie,
  { hole: hole_a, units: ofA }: HoleResult,
  { hole: hole_b, units: ofB }: HoleResult,
): ProposalResult {
  return {
    hole_a,
    unit_a: ofA[a]!.unit,
    unit_a_row_id: ofA[a]!.row_id,
    hole_b,
    unit_b: ofB[b]!.unit,
    unit_b_row_id: ofB[b]!.row_id,
    margin,
    is_clear: isClear,
    next_of_a: otherwise.of_a === null ? null : ofB[otherwise.of_a]!.unit,
    next_of_b: otherwise.of_b === null ? null : ofA[otherwise.of_b]!.unit,
    sediment: parts.sediment,
    thickness: parts.thickness,
    elevation: parts.elevation,
    measured: parts.properties,
  };
}

/** Accepted dates of samples with a depth, by hole. */
export function datesByHole(
  campaign: Campaign,
  samples: Samples,
  dates: Dates,
): ReadonlyMap<string, readonly PlacedDate[]> {
  const roles = new Map(campaign.rows.determinations.map((row) => [row.row_id, roleOf(row)]));
  const placed = [...dates.of.values()].flatMap(({ value: { result } }) => {
    const sample = samples.of.get(result.sample)?.value;
    if (result.status !== 'accepted' || sample === undefined) return [];
    if (sample.hole === null || sample.depth_m === null || result.sets_95.length === 0) return [];
    return [
      {
        hole: sample.hole,
        depth_m: sample.depth_m,
        thickness_m: sample.thickness_m ?? 0,
        mean_cal_bp: result.mean_cal_bp,
        sd_yr: result.sd_yr,
        sets_95: result.sets_95,
        role: roles.get(result.row_id) ?? ('direct' as const),
      },
    ];
  });
  return Map.groupBy(placed, ({ hole }) => hole);
}
