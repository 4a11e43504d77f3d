/**
 * What is expected in holes that are planned or open, from the others of their site: along the correlations that were
 * accepted, and along proposals that are clear. And what came up in them that is not as expected.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { positionOf } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import type {
  CorrelationResult,
  ExpectationResult,
  HoleHistory,
  HoleResult,
  HorizonResult,
  ProposalResult,
} from '@stillstand/campaign/results';
import { heightAt, type Point } from '@stillstand/science/correlate';
import {
  type BelowSettings,
  belowDefaults,
  type ExpectedContact,
  expectedBelow,
  type HoleBelow,
  type TiedBases,
} from '@stillstand/science/correlate/below';
import { onLine, type Position } from '@stillstand/science/survey';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { agesOfHole } from '../section/times.ts';
import { inMetres } from '../words/numbers.ts';
import { isBaseSeen } from './base-seen.ts';
import type { PlacedDate } from './compared-column.ts';
import { goesOn } from './proposals.ts';

/** Of what was met so far off, one in so many is met. */
const IMPROBABLE = 0.02;
/** A contact that was as probable as this before, and is no more than that by now, should have come up. */
const WAS_PROBABLE = 0.8;
const IS_IMPROBABLE = 0.2;

interface Asked {
  here: HoleBelow;
  reached_m: number;
  others: readonly HoleBelow[];
  ties: readonly TiedBases[];
  settings: BelowSettings;
}

const below = step(
  'expected below',
  ({ here, reached_m, others, ties, settings }: Asked & Record<string, unknown>) =>
    expectedBelow(here, reached_m, others, ties, settings),
);

export function expectations(
  run: Runner,
  campaign: Campaign,
  holes: readonly HoleResult[],
  known: {
    correlations: readonly CorrelationResult[];
    /** Between neighbours, and across holes that go on. */
    proposals: readonly ProposalResult[];
    horizons: readonly HorizonResult[];
    histories: readonly HoleHistory[];
    /** By hole. */
    dates: ReadonlyMap<string, readonly PlacedDate[]>;
  },
): { made: ExpectationResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<ComplainedRow>(campaign, 'units', ({ hole, unit }) =>
    unit === undefined ? hole : `${hole}, unit ${unit ?? ''}`,
  );
  const ofHoles = complaints<ComplainedRow>(campaign, 'holes', ({ hole }) => hole);
  const clear = known.proposals.filter(({ is_clear }) => is_clear);
  const named = new Map(
    known.horizons.flatMap(({ horizon, contacts }) =>
      contacts.map(({ unit_row_id }) => [unit_row_id, horizon] as const),
    ),
  );
  const labels = new Map(holes.flatMap(({ units }) => units.map(({ row_id, unit }) => [row_id, unit])));
  const made = holes.flatMap((hole): ExpectationResult[] => {
    if (!goesOn(hole.state)) return [];
    const at = positionOf(hole);
    if (at === null) return [];
    const here = placed(hole, at, at);
    const others = holes.flatMap((other) => {
      const position = other === hole || other.site !== hole.site ? null : positionOf(other);
      return position === null ? [] : [placed(other, position, at)];
    });
    if (others.length === 0) return [];
    const among = new Set([hole.hole, ...others.map((other) => other.hole)]);
    const isAmong = ({ hole_a, hole_b }: Tied): boolean => among.has(hole_a) && among.has(hole_b);
    const [ties, proposed] = [known.correlations.filter(isAmong), clear.filter(isAmong)];
    const ground_m = hole.ground_elevation_m?.value ?? null;
    const described_m = here.units.at(-1)?.base_m.value ?? ground_m;
    const found = run.untold(below, {
      here: run.plain(here),
      reached_m: run.plain(described_m ?? Infinity),
      others: run.plain(others),
      ties: run.plain([...ties, ...proposed].map(basesOf)),
      settings: run.plain(belowDefaults),
    }).value as ReturnType<typeof expectedBelow>;
    if (found === null) return [];
    complainOf(hole, found.contacts, described_m, labels, { complain, ofHoles: ofHoles.complain });
    return [
      {
        hole_row_id: hole.row_id,
        hole: hole.hole,
        ground_m,
        described_m,
        asked: found.asked,
        ties: ties.length,
        proposed_ties: proposed.length,
        contacts: found.contacts.map(({ units, met, elevation_m, before, present, ...contact }) => ({
          horizon: units.map(({ unit }) => named.get(unit)).find((name) => name !== undefined) ?? null,
          sediment: contact.sediment,
          environment: contact.environment,
          units: units.map(({ hole: of, unit }) => ({
            hole: of,
            unit: labels.get(unit) ?? '',
            unit_row_id: unit,
          })),
          before,
          present,
          elevation_m,
          with_80_m: contact.with80_m,
          with_95_m: contact.with95_m,
          age_cal_bp: ageOf(units, holes, known),
          met: met === null ? null : { ...met, unit: labels.get(met.unit) ?? '', unit_row_id: met.unit },
        })),
      },
    ];
  });
  return { made, problems: [...ofHoles.problems, ...problems] };
}

type Tied = Pick<CorrelationResult, 'hole_a' | 'unit_a_row_id' | 'hole_b' | 'unit_b_row_id'>;

const basesOf = ({ hole_a, unit_a_row_id, hole_b, unit_b_row_id }: Tied): TiedBases => ({
  hole_a,
  unit_a: unit_a_row_id,
  hole_b,
  unit_b: unit_b_row_id,
});

/** Rows that are complained of: of a layer, or of a hole. */
interface ComplainedRow {
  row_id: string;
  hole: string;
  unit?: string | null;
}

/** A hole in the plane about another one; layers without an elevation are left out. */
function placed(
  { hole, ground_elevation_m, units }: HoleResult,
  position: Position,
  about: Position,
): HoleBelow {
  const { along_m, offset_m } = onLine(about, 0, position);
  return {
    hole,
    north_m: along_m,
    east_m: offset_m,
    ground_m:
      ground_elevation_m === null
        ? null
        : { value: ground_elevation_m.value, sigma: ground_elevation_m.sigma },
    units: units.flatMap(({ row_id, sediment, environment, elevation_bottom_m }, i) =>
      elevation_bottom_m === null
        ? []
        : [
            {
              id: row_id,
              sediment,
              environment,
              base_m: { value: elevation_bottom_m.value, sigma: elevation_bottom_m.sigma },
              isBaseSeen: isBaseSeen(units, i),
            },
          ],
    ),
  };
}

/** From the youngest to the oldest that holes have at the contact, by their ages against depth or between their dates. */
function ageOf(
  units: ExpectedContact['units'],
  holes: readonly HoleResult[],
  { histories, dates }: Parameters<typeof expectations>[3],
): { younger: number; older: number } | null {
  const found = units.flatMap(({ hole: label, unit }) => {
    const hole = holes.find((each) => each.hole === label);
    const at = hole?.units.find(({ row_id }) => row_id === unit)?.elevation_bottom_m?.value;
    if (hole === undefined || at === undefined) return [];
    const known = agesOfHole(hole, histories, dates).map(
      ({ elevation_m, age_cal_bp }): Point => [elevation_m, age_cal_bp],
    );
    return (
      heightAt(
        known.toSorted(([a], [b]) => a - b),
        at,
      ) ?? []
    );
  });
  return found.length === 0 ? null : { younger: Math.min(...found), older: Math.max(...found) };
}

/** What was met where it is improbable, and what should have come up by now. */
function complainOf(
  hole: HoleResult,
  contacts: readonly ExpectedContact[],
  described_m: number | null,
  labels: ReadonlyMap<string, string>,
  { complain, ofHoles }: Record<'complain' | 'ofHoles', (...of: ComplainArguments) => void>,
): void {
  const metres = (m: number): string => `${inMetres(m)} m`;
  for (const { met, units, elevation_m, sediment, before, present } of contacts) {
    const [nearest] = units;
    const by = `${nearest!.hole}, unit ${labels.get(nearest!.unit) ?? ''}`;
    const range = `${metres(elevation_m.lower95)} to ${metres(elevation_m.upper95)} (95 %)`;
    if (met !== null && met.improbable < IMPROBABLE) {
      complain(
        { row_id: met.unit, hole: hole.hole, unit: labels.get(met.unit) ?? null },
        'not-as-expected',
        'unit',
        `its base at ${metres(met.elevation_m)}`,
        `${range}, as the base of ${by}`,
        'Check the depth of the layer and the correlation. What is expected below follows the layer as described.',
        'warning',
      );
    } else if (met === null && described_m !== null && before >= WAS_PROBABLE && present < IS_IMPROBABLE)
      ofHoles(
        { row_id: hole.row_id, hole: hole.hole },
        'expected-not-met',
        'hole',
        `no base of ${sediment ?? 'the layer'} down to ${metres(described_m)}`,
        `the base of ${by}`,
        'Check what is described, and correlate it if it is there under another name. If it is not, the layer ends before this hole.',
        'note',
      );
  }
}

type ComplainArguments = Parameters<ReturnType<typeof complaints<ComplainedRow>>['complain']>;
