/**
 * What entered the string between its last two soundings at different depths, against what was driven; after a run that
 * was laid out, what came up of what it removed. It is known as soon as the sediment was sounded, however many drives lay
 * between, and is shown with its age from the next drive on.
 */

import type { HoleState } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';
import { m2 } from '../tape/lengths.ts';
import { type BigNumber, empty, known, unknown } from './big-number.ts';

/** What a sounding or a run can be named for that its recovery must not hide. */
const DOUBTS: ReadonlySet<string> = new Set([
  'recovery-over-one',
  'entered-falling',
  'sediment-rising',
  'inflow-during-run',
  'recovered-more-than-removed',
]);

/** Two soundings nearer than this were made at one depth of the shoe, m. */
const SAME_DEPTH_M = 0.02;

export function recovery(now: HoleState): BigNumber {
  const pipe = pipeRecovery(now);
  const drive = now.readings.findLastIndex((r) => r.kind === 'drive');
  const run = now.fold.runs.findLast((r) => r.sampler_recovery !== null && r.recovered_m !== null);
  const at = run === undefined ? -1 : now.readings.findIndex((r) => r.row_id === run.row_id);
  if (run === undefined || at < drive) return pipe;
  return doubtful(
    known(
      t`Sampler recovery, ${run.run}`,
      (100 * run.sampler_recovery!).toFixed(0),
      '%',
      Math.max(1, (200 * run.removed_sigma_m * run.sampler_recovery!) / run.removed_m).toFixed(0),
      t`${m2(run.recovered_m! - run.fall_in_m)} of ${m2(run.removed_m)} m removed${pipe.value === null ? '' : t`; pipe ${pipe.value} %`}`,
    ),
    isDoubted(now, run.row_id),
  );
}

function pipeRecovery(now: HoleState): BigNumber {
  const name = t`Recovery`;
  if (now.fold.drives.length === 0) return empty(name, t`not driven yet`);
  const soundings = now.fold.soundings;
  const deepest = soundings.at(-1)?.penetration_m;
  if (deepest === undefined) return unknown(name, '%', t`take a sounding`);
  // the first at this depth: what runs removed since makes those after it less sure
  const here = soundings.find((s) => Math.abs(s.penetration_m - deepest) <= SAME_DEPTH_M)!;
  const before = soundings.findLast((s) => s.penetration_m < here.penetration_m - SAME_DEPTH_M);
  const from = before ?? { penetration_m: 0, entered_m: 0 };
  const advance = here.penetration_m - from.penetration_m;
  if (advance <= SAME_DEPTH_M) return unknown(name, '%', t`hardly driven`);
  const entered = here.entered_m - from.entered_m;
  const share = entered / advance;
  const { sounding_sigma_m, stick_up_sigma_m } = now.settings;
  const sigma = Math.hypot(
    (before === undefined ? 1 : Math.SQRT2) * sounding_sigma_m,
    share * Math.SQRT2 * stick_up_sigma_m,
  );
  const total = now.last?.recovery ?? null;
  const all = before === undefined || total === null ? '' : t`; in all ${(total * 100).toFixed(0)} %`;
  const isDriven = now.sediment.since.some((r) => r.kind === 'drive');
  const of = {
    ...known(
      name,
      (share * 100).toFixed(0),
      '%',
      Math.max(1, (200 * sigma) / advance).toFixed(0),
      t`${m2(entered)} of ${m2(advance)} m ${before === undefined ? t`driven` : t`since the last sounding`}${all}`,
    ),
    age: isDriven ? t`before this drive` : null,
  };
  return doubtful(of, isDoubted(now, here.row_id));
}

/** A share from a reading that cannot be as it was read is not shown as bold as the others. */
const doubtful = (n: BigNumber, isSo: boolean): BigNumber =>
  isSo ? { ...n, age: null, also: { value: t`doubtful`, unit: '', level: 'caution' } } : n;

const isDoubted = (now: HoleState, row_id: string): boolean =>
  now.findings.some((f) => f.row_id === row_id && f.severity !== 'note' && DOUBTS.has(f.code));
