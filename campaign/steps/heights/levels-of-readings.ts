/** Tide levels of a site as means of the readings of a gauge. */
import { traceId } from '@stillstand/campaign/results';
import { momentOf, TIDE_LEVELS } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import { type ObservedLevels, observedLevels } from '@stillstand/science/tide';
import { step } from '../runner/step.ts';
import { tellReadings } from '../words/tide.ts';
import type { GaugeRecord } from './gauge-record.ts';
import { type GaugeZero, tracedZero, zeroSigma } from './gauge-zero.ts';
import type { Asked, ComputedLevel } from './levels-asked.ts';

/** Above the zero of the gauge. */
const ofReadings = step(
  'tide levels of readings',
  ({ record }: { record: { time_ms: readonly number[]; height_m: readonly number[] } }): ObservedLevels =>
    observedLevels(record),
);

const DAY_MS = 86_400_000;

/** `record`: all readings of the gauge; none where it has none. */
export function fromReadings(
  { run, row, gauge, complain }: Asked,
  zeroOf: () => GaugeZero | null,
  record: GaugeRecord | undefined,
): ComputedLevel[] {
  const [from, to] = [momentOf(`${row.from}T00:00Z`), momentOf(`${row.to}T00:00Z`)];
  const isUsed = (time_ms: number): boolean =>
    (from === null || time_ms >= from) && (to === null || time_ms < to + DAY_MS);
  const at = [...(record?.time_ms ?? []).keys()].filter((i) => isUsed(record!.time_ms[i]!));
  const levels = run.untold(ofReadings, {
    record: run.plain({
      time_ms: at.map((i) => record!.time_ms[i]!),
      height_m: at.map((i) => record!.height_m[i]!),
    }),
  }).value;
  if (!levels.ok) {
    complain(
      row,
      'tide-reduction-too-short',
      'from',
      `${levels.readings} readings of ${row.gauge}, ${levels.days.toFixed(1)} days of them without a gap`,
      `${levels.needs_days} days of readings through day and night, 2 h apart or closer, with date and time and without a flag`,
      `Read the gauge longer, or compute the levels from its constants. No tide levels of ${row.site} are computed until then.`,
    );
    return [];
  }
  const zero = zeroOf();
  if (zero === null) return [];
  const parts = [
    run.row('tide_reductions', row, `tide levels of ${row.site} from ${row.gauge}`),
    run.part(
      traceId.gaugeLevels(row.gauge, row.site, 'readings'),
      null,
      tellReadings(row.gauge, levels),
      at.map((i) => run.row('gauge_readings', record!.rows[i]!, `reading of ${row.gauge}`)),
    ),
    tracedZero(run, gauge, zero),
  ];
  return TIDE_LEVELS.flatMap((level): ComputedLevel[] => {
    if (!(level in levels.levels)) return [];
    const { height_m, sigma_m } = levels.levels[level as keyof typeof levels.levels];
    return [
      {
        level,
        elevation_m: zero.elevation_m + height_m,
        sigma_m: inQuadrature(sigma_m, zeroSigma(zero)),
        row,
        method: 'means',
        how: `mean of ${levels.days.toFixed(0)} days of readings`,
        parts,
      },
    ];
  });
}
