/** The age of a sample that nobody dated, from the nearest dates above and below it in its hole. */
import type { Campaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { ageBetween, type Calibration, type NotCalibrated } from '@stillstand/science/dating';
import type { Samples } from '../hole/samples.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellBetween } from '../words/dates.ts';
import { type Dated, type Dates, roleOf } from './dates.ts';
import { densityOf, distributionOf } from './distribution.ts';

const between = step(
  'between two dates',
  ({ older, younger }: { older: Dated; younger: Dated }): Calibration | NotCalibrated =>
    ageBetween(older.result, younger.result),
);

/** Why there is none, in words, where the hole has no date on either side, or the two contradict their order. */
export function dateBetween(
  run: Runner,
  campaign: Campaign,
  sample: string,
  samples: Samples,
  dates: Dates,
): Known<Dated> | string {
  const placed = samples.of.get(sample)?.value;
  const depth = placed?.depth_m ?? null;
  if (placed === undefined || placed.hole === null || depth === null) return 'a sample at a depth in a hole';
  const dated = campaign.rows.determinations.flatMap((row) => {
    const date = dates.of.get(row.lab_code);
    const of = samples.of.get(row.sample)?.value;
    const isOfLayer = date?.value.age != null && roleOf(row) === 'direct' && !dates.repeats.has(row.lab_code);
    if (!isOfLayer || of === undefined || of.hole !== placed.hole || of.depth_m === null) return [];
    return [{ date, depth_m: of.depth_m, code: row.lab_code }];
  });
  const above = dated.filter((d) => d.depth_m < depth).sort((a, b) => b.depth_m - a.depth_m)[0];
  const below = dated.filter((d) => d.depth_m > depth).sort((a, b) => a.depth_m - b.depth_m)[0];
  if (above === undefined || below === undefined)
    return `a date in use on either side of it in ${placed.hole}: there is none ${above === undefined ? 'above' : 'below'}`;
  const name = `${above.code} to ${below.code}`;
  const known = run.untold(between, { older: below.date, younger: above.date });
  const age = known.value;
  if (age.kind !== 'calibrated') return `${below.code} to be older than ${above.code}: ${age.reason}`;
  const value: Dated = {
    age: densityOf(age),
    result: {
      ...below.date.value.result,
      ...distributionOf(age),
      lab_code: name,
      sample,
    },
  };
  return run.part(traceId.date(name), value, tellBetween(name, value.result), [above.date, below.date]);
}
