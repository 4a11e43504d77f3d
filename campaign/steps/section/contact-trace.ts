/** A contact of a section in the trace: the units it bounds, its correlation, and what was said of how it runs. */
import type { Campaign } from '@stillstand/campaign/document';
import { type SectionResult, traceId } from '@stillstand/campaign/results';
import type { Runner } from '../runner/runner.ts';
import type { Told } from '../runner/step.ts';

type Contact = SectionResult['contacts'][number];

/** Those that a row says something about; of the others there is nothing but their units. */
export function traceContacts(
  run: Runner,
  campaign: Campaign,
  { line, row_id, holes, contacts }: Pick<SectionResult, 'line' | 'row_id' | 'holes' | 'contacts'>,
): void {
  const { correlations, section_boundaries, section_lines, units } = campaign.rows;
  const along = new Map(holes.map(({ hole, along_m }) => [hole, along_m]));
  for (const contact of contacts) {
    if (contact.tie === null && contact.boundary === null) continue;
    const described = (hole: string | null, unit: string | null, id: string | null) =>
      units
        .filter((row) => row.hole === hole && (row.row_id === id || (unit !== '' && row.unit === unit)))
        .map((row) => run.row('units', row, `unit ${row.unit ?? ''} of ${row.hole}`));
    const rowsOf = <R extends { row_id: string }>(
      table: string,
      rows: readonly R[],
      id: string | null,
      is: string,
    ) => rows.filter((row) => row.row_id === id).map((row) => run.row(table, row, is));
    run.part(
      traceId.contact(line, nameOf(contact, along.get(contact.hole_a) ?? 0)),
      null,
      tell(contact, line),
      [
        ...rowsOf('section_lines', section_lines, row_id, `section line ${line ?? ''}`),
        ...rowsOf('correlations', correlations, contact.tie, 'correlation'),
        ...rowsOf('section_boundaries', section_boundaries, contact.boundary, 'how it runs'),
        ...described(contact.hole_a, contact.unit_a, contact.unit_a_row_id),
        ...described(contact.hole_b, contact.unit_b, contact.unit_b_row_id),
      ],
    );
  }
}

/** By its units; one that ends before the next hole also by the side it runs to, `after` or `before` its hole. */
function nameOf({ hole_a, unit_a, hole_b, unit_b, is_lateral, line }: Contact, at_m: number): string {
  const what = is_lateral ? 'side of ' : '';
  if (hole_b !== null) return `${what}${hole_a} ${unit_a} to ${hole_b} ${unit_b}`;
  const farthest = Math.max(...line.map(({ along_m }) => along_m));
  return `${what}${hole_a} ${unit_a} ${farthest > at_m ? 'after' : 'before'} ${hole_a}`;
}

function tell(
  { hole_a, unit_a, hole_b, unit_b, horizon, ending, is_lateral, line: drawn }: Contact,
  line: string | null,
): Told {
  const [from, to] = [drawn[0]!, drawn.at(-1)!];
  const where = hole_b === null ? `${hole_a} ${unit_a}` : `${hole_a} ${unit_a} to ${hole_b} ${unit_b}`;
  return {
    label: `${is_lateral ? 'side' : 'base'} of ${where}${horizon === null ? '' : `, ${horizon}`}${line === null ? '' : `, line ${line}`}`,
    how: `drawn from ${from.along_m.toFixed(1)} to ${to.along_m.toFixed(1)} m along the line`,
    value: ending.replaceAll('_', ' '),
    sigma: null,
    unit: '',
  };
}
