/** More recovered than a run removed or a push went: named in the unit of the crew, and used as it is. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { tapeLength } from '@stillstand/science/base';
import type { RigFinding } from '@stillstand/science/rig';
import type { CrewUnit } from './crew-units.ts';
import type { HoleState } from './state.ts';

/** What is wrong in a reading, whatever table it stands in. */
export type ReadingFinding = Pick<RigFinding, 'severity' | 'row_id' | 'found' | 'expected' | 'fix'> & {
  code: string;
};

/**
 * The most that a core of so much may measure, metres: a tenth more, as it swells and is read along its own slope, and
 * 5 cm of tape. Common practice, no source.
 */
export const mostRecovered = (entered_m: number): number => entered_m * 1.1 + 0.05;

interface PushRead {
  row_id: string;
  from_m: number;
  to_m: number;
  recovered_m: number | null;
}

/** Lengths in metres; null where nothing was measured, or no more than the push went. */
export function pushFinding(
  push: PushRead,
  unit: CrewUnit,
): (ReadingFinding & { severity: 'warning' }) | null {
  const pushed = push.to_m - push.from_m;
  if (push.recovered_m === null || !(pushed > 0) || push.recovered_m <= mostRecovered(pushed)) return null;
  return {
    severity: 'warning',
    code: 'recovered-more-than-pushed',
    row_id: push.row_id,
    found: `${tapeLength(push.recovered_m, unit)} recovered, ${tapeLength(pushed, unit)} pushed`,
    expected: 'no more than was pushed',
    fix: 'Check the recovered length and both ends of the push; the core is squeezed to fit.',
  };
}

/** The findings of a hole, with what a run recovered in the unit of its crew. */
export const findingsAsRead = ({ fold, units }: HoleState): ReadingFinding[] =>
  fold.findings.map((finding) => {
    const run = fold.runs.find((r) => r.row_id === finding.row_id);
    if (finding.code !== 'recovered-more-than-removed' || run?.recovered_m == null) return finding;
    const said = (m: number): string => tapeLength(m, units.core);
    return {
      ...finding,
      found: `${said(run.recovered_m - run.fall_in_m)} came up, ${said(run.removed_m)} was removed`,
    };
  });

/** The pushes of a hole that recovered more than they went, as problems of the campaign, in metres. */
export const pushProblems = ({ rows, lines }: Pick<Campaign, 'rows' | 'lines'>, hole: string): Problem[] =>
  rows.pushes.flatMap((push) => {
    const finding = push.hole === hole ? pushFinding(push, 'm') : null;
    if (finding === null) return [];
    const place = { table: 'pushes', line: lines.get(push.row_id) ?? null, column: 'recovered' };
    return [problem({ ...finding, ...place, label: `${hole} ${push.push}` })];
  });
