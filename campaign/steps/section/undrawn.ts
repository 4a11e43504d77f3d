/** Correlations of two holes of a line that cannot be drawn on it: a hole between them has no such contact. */
import type { Campaign } from '@stillstand/campaign/document';
import type { CorrelationResult, SectionResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { unions } from '@stillstand/science/base';
import type { Complain } from '../complaint.ts';

/** One that is drawn on any line is fine; of two neighbours it is drawn, or the problem is that it crosses another. */
export function complainOfUndrawn(
  campaign: Campaign,
  correlations: readonly CorrelationResult[],
  sections: readonly SectionResult[],
  complain: Complain<Row<'correlations'>>,
): void {
  const rows = new Map(campaign.rows.correlations.map((row) => [row.row_id, row]));
  const contacts = sections.map(contactsOf);
  for (const { row_id, hole_a, unit_a, unit_a_row_id, hole_b, unit_b, unit_b_row_id } of correlations) {
    const over = sections.map((section, i) => {
      const labels = section.holes.map(({ hole }) => hole);
      const places = [labels.indexOf(hole_a), labels.indexOf(hole_b)];
      const [from, to] = [Math.min(...places), Math.max(...places)];
      if (from === -1) return null;
      const isOne = contacts[i]!(unit_a_row_id) === contacts[i]!(unit_b_row_id);
      return to - from > 1 && !isOne ? { section, between: labels.slice(from + 1, to) } : 'drawn';
    });
    const [first] = over.filter((each) => each !== null && each !== 'drawn');
    const row = rows.get(row_id);
    if (row === undefined || first === undefined || over.includes('drawn')) continue;
    const line = first.section.line;
    complain(
      row,
      'section-correlation-over-hole',
      'hole_b',
      `${hole_a} ${unit_a} and ${hole_b} ${unit_b}, with ${first.between.join(', ')} between${line === null ? '' : ` on ${line}`}`,
      'a correlation with each hole between the two, or a line on which they are next to each other',
      'Correlate the contact in the holes between, or give a line without them. Until then no section shows it; all else uses it.',
      'note',
    );
  }
}

/** Contacts of a section that are one: the name of their group, by the unit above them. */
function contactsOf({ contacts }: SectionResult): (unit: string) => string {
  const { root, join } = unions();
  for (const { tie, unit_a_row_id, unit_b_row_id } of contacts)
    if (tie !== null && unit_b_row_id !== null) join(unit_a_row_id, unit_b_row_id);
  return root;
}
