/**
 * ΔR from the campaign's own shells: those of known age, and those paired with a terrestrial date. Each gives one ΔR, those of
 * one `delta_r_group` one for that water. They are not dated: their age is known otherwise.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import {
  type NotCalibrated,
  offsetOfKnownAge,
  offsetOfPair,
  type PooledOffset,
  pooledOffset,
  type ReservoirOffset,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { type Complain, complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellOffset, tellReservoir } from '../words/reservoirs.ts';
import { conventionalAge } from './conventional-age.ts';
import { reservoirDoubts } from './reservoir-doubts.ts';

type Determination = Row<'determinations'>;

export interface Reservoir extends PooledOffset {
  group: string;
  /** The curve it belongs to. */
  curve: string;
}

export interface Reservoirs {
  /** By `delta_r_group`. */
  of: ReadonlyMap<string, Reservoir>;
  problems: readonly Problem[];
}

/** Whether a determination is there to find ΔR, and not to be dated. */
export const isForOffset = ({ known_age_ce, paired_with }: Determination): boolean =>
  known_age_ce !== null || paired_with !== null;

/** What a determination takes over from it: whole years, the error rounded up. */
export const offeredOffset = ({ mean_yr, new_sample_error_yr }: PooledOffset) => ({
  delta_r: Math.round(mean_yr),
  delta_r_error: Math.ceil(new_sample_error_yr),
});

const offset = step(
  'reservoir offset',
  ({
    row,
    curve,
    terrestrial,
    atmosphere,
  }: {
    row: Determination;
    curve: YearlyCurve;
    terrestrial: Determination | null;
    atmosphere: YearlyCurve | null;
  }): ReservoirOffset | NotCalibrated => {
    const measured = conventionalAge(row);
    if ('reason' in measured) return measured;
    if (row.known_age_ce !== null) return offsetOfKnownAge(measured, 1950 - row.known_age_ce, curve);
    if (terrestrial === null || atmosphere === null)
      return { kind: 'not_a_number', reason: 'its terrestrial date cannot be used' };
    const other = conventionalAge(terrestrial);
    return 'reason' in other ? other : offsetOfPair(measured, other, curve, atmosphere);
  },
);

const pooling = step('reservoir', ({ offsets }: { offsets: readonly ReservoirOffset[] }) =>
  pooledOffset(offsets),
);

export function reservoirs(
  run: Runner,
  campaign: Campaign,
  curves: ReadonlyMap<string, Known<YearlyCurve>>,
): Reservoirs {
  const { problems, complain } = complaints<Determination>(campaign, 'determinations', (r) => r.lab_code);
  const rows = campaign.rows.determinations.filter(isForOffset);
  const shells = rows.flatMap((row) => shellOf(run, campaign, curves, row, complain));
  const of = new Map<string, Reservoir>();
  const grouped = rows.filter(({ delta_r_group }) => delta_r_group !== null);
  for (const [group, members] of Map.groupBy(grouped, (row) => row.delta_r_group!)) {
    const usable = shells.filter(({ row }) => row.delta_r_group === group);
    const names = [...new Set(usable.map(({ row }) => row.calibration_curve!))];
    const [curve, ...others] = names;
    if (curve === undefined || others.length > 0) {
      complain(
        members[0]!,
        curve === undefined ? 'reservoir-empty' : 'reservoir-two-curves',
        'delta_r_group',
        curve === undefined ? `${group}: no shell that can be used` : `${group} on ${names.join(', ')}`,
        curve === undefined ? 'at least one shell of known age, or a pair' : 'one curve for one ΔR',
        'Correct its determinations. Until then the group has no ΔR of its own.',
      );
      continue;
    }
    const { value: pool } = run.do(
      pooling,
      traceId.reservoir(group),
      { offsets: usable.map(({ known }) => known) },
      (v) => tellReservoir(group, v),
    );
    of.set(group, { group, curve, ...pool });
    for (const doubt of reservoirDoubts(pool)) {
      const { code, found, expected, fix } = doubt;
      complain(usable[0]!.row, code, 'delta_r_group', `${group}: ${found}`, expected, fix, 'warning');
    }
  }
  return { of, problems };
}

interface Shell {
  row: Determination;
  known: Known<ReservoirOffset>;
}

/** One or none; why there is none is said. */
function shellOf(
  run: Runner,
  campaign: Campaign,
  curves: ReadonlyMap<string, Known<YearlyCurve>>,
  row: Determination,
  complain: Complain<Determination>,
): Shell[] {
  if (row.status === 'rejected') return [];
  const column = row.known_age_ce === null ? 'paired_with' : 'known_age_ce';
  const found = String(row[column]);
  const none = (expected: string, fix: string): Shell[] => {
    complain(row, 'no-reservoir-offset', column, found, expected, `${fix} It gives no ΔR.`, 'warning');
    return [];
  };
  const curve = row.calibration_curve === null ? undefined : curves.get(row.calibration_curve);
  if (row.method !== 'radiocarbon' || curve === undefined || curve.value.months !== undefined)
    return none(
      'a radiocarbon age with the curve ΔR is sought for: marine20, or the atmosphere for carbon of lakes and rivers',
      'Name method and curve.',
    );
  if (row.delta_r_group === null)
    return none('the name of its water as the group of ΔR', 'Name the water, the same for all its shells.');
  const pair =
    row.known_age_ce === null
      ? campaign.rows.determinations.find(({ lab_code }) => lab_code === row.paired_with)
      : undefined;
  const atmosphere =
    pair === undefined || pair.calibration_curve === null ? undefined : curves.get(pair.calibration_curve);
  const isOfAir =
    pair !== undefined &&
    pair.method === 'radiocarbon' &&
    pair.status !== 'rejected' &&
    !isForOffset(pair) &&
    pair.calibration_curve !== row.calibration_curve &&
    (pair.marine_fraction ?? 0) === 0 &&
    (pair.delta_r ?? 0) === 0;
  if (row.known_age_ce === null && (atmosphere === undefined || !isOfAir))
    return none(
      'an accepted radiocarbon date of what lived on the air, without ΔR or marine share',
      'Name the terrestrial date of the pair.',
    );
  const answer = run.do(
    offset,
    traceId.offset(row.lab_code),
    {
      row: run.row('determinations', row, `determination ${row.lab_code}`),
      curve,
      terrestrial:
        pair === undefined ? null : run.row('determinations', pair, `determination ${pair.lab_code}`),
      atmosphere: atmosphere ?? null,
    },
    (v) => tellOffset(row, v.kind === 'offset' ? v : null),
  );
  if (answer.value.kind === 'offset') return [{ row, known: answer as Known<ReservoirOffset> }];
  return none(`a year on the curve: ${answer.value.reason}`, 'Correct it, or leave the shell out.');
}
