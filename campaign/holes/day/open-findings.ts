/** What the readings of a hole say is wrong and is so still: what is over is said as what to look at, or not at all. */
import { tapeLength } from '@stillstand/science/base';
import type { RigFinding } from '@stillstand/science/rig';
import type { HoleState } from '../state.ts';

export interface OpenFinding {
  code: RigFinding['code'];
  level: 'danger' | 'caution';
  words: string;
}

/** Notes left out. Lengths in the unit of the crew’s tape. */
export const openFindings = (now: HoleState): OpenFinding[] =>
  now.findings.flatMap((finding) =>
    finding.severity === 'note'
      ? []
      : isLifted(now, finding)
        ? afterLifting(now, finding)
        : [asFound(finding)],
  );

const asFound = ({ code, severity, found }: RigFinding): OpenFinding => ({
  code,
  level: severity === 'danger' ? 'danger' : 'caution',
  words: code === 'sampler-past-shoe' ? `${found}. Lift it now` : found,
});

/** Of where a sampler hung that has been lifted since. */
const isLifted = (now: HoleState, { code, row_id }: RigFinding): boolean =>
  /^sampler-(?:past-shoe|inside-margin|close)$/.test(code) && now.run?.row_id !== row_id;

/** A rim that was outside the shoe may be bent, and so may the shoe; one that only came near it is no danger any more. */
function afterLifting(now: HoleState, { code, row_id }: RigFinding): OpenFinding[] {
  const run = now.fold.runs.find((r) => r.row_id === row_id);
  if (code !== 'sampler-past-shoe' || run?.clearance_m == null) return [];
  const past = tapeLength(-run.clearance_m, now.units.tape, 'at least');
  return [
    { code, level: 'caution', words: `Run ${run.run} went ${past} past the shoe: inspect sampler and shoe` },
  ];
}
