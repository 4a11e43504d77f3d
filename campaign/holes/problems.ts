/** What the readings of a hole say that is wrong or unsafe, as problems of the campaign. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import type { RigFinding } from '@stillstand/science/rig';
import { admitted, type RigEntry } from './rig-readings.ts';

/** `entries` are the readings the findings are about; a finding about none of them is of the hole itself. */
export function holeProblems(
  { lines }: Pick<Campaign, 'lines'>,
  hole: Row<'holes'>,
  entries: readonly RigEntry[],
  findings: readonly RigFinding[],
): Problem[] {
  const table = new Map(entries.map((e) => [e.reading.row_id, e.table]));
  return findings.map((each) => {
    const { severity, code, row_id, seq, found, expected, fix } = admitted(each, hole);
    return problem({
      severity,
      code,
      row_id,
      found,
      expected,
      fix,
      table: table.get(row_id) ?? 'holes',
      line: lines.get(row_id) ?? null,
      label: `${hole.hole} number ${seq}`,
    });
  });
}
