/** What of plain tables cannot be drawn on a section, said of the line of the table it is in. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { SectionFinding } from '@stillstand/science/correlate';

interface Tables {
  units: string;
  ties: string;
  ends: string;
}

export const findingProblem = (finding: SectionFinding, { units, ties, ends }: Tables): Problem => {
  const line = 'row_id' in finding ? Number(finding.row_id) : null;
  const said = (table: string, column: string, found: string, expected: string, fix: string): Problem =>
    problem({
      severity: 'warning',
      code: finding.kind.replaceAll('_', '-'),
      table,
      line,
      column,
      found,
      expected,
      fix,
    });
  switch (finding.kind) {
    case 'tie_crosses':
      return said(
        ties,
        'unit_b',
        `a correlation that crosses that of line ${finding.other}`,
        'contacts in the same order in both holes',
        'Correct or delete one. The one given first is drawn.',
      );
    case 'one_place':
      return said(
        units,
        'at_m',
        `${finding.hole_a} and ${finding.hole_b} at one place`,
        'holes apart along the section',
        'Correct at_m, or leave one of them out. Nothing is drawn between them.',
      );
    case 'boundary_off_line':
      return said(ends, 'hole_a', `${finding.hole}, no hole of ${units}`, 'a hole of the section', LEFT_OUT);
    case 'boundary_not_neighbours':
      return said(ends, 'hole_b', 'two holes with another between them', 'two neighbouring holes', LEFT_OUT);
    case 'boundary_without_contact':
      return said(
        ends,
        'horizon',
        'no contact between these holes',
        'a horizon that is correlated there, or a unit of hole_a',
        LEFT_OUT,
      );
    case 'boundary_against_tie':
      return said(
        ends,
        'ending',
        `an end of a contact that is in both holes${finding.tie === '' ? '' : `, by line ${finding.tie} of ${ties}`}`,
        'an end of a contact that only one of them has',
        'Delete the correlation, or write continuous. The contact is drawn through.',
      );
    case 'no_fingers':
      return said(
        ends,
        'ending',
        'fingers where not one unit of each hole meets the other',
        'one unit of each hole, of different sediments, between two correlated contacts',
        'Correlate what lies above and below, or write another ending. It is drawn without fingers.',
      );
    case 'boundary_twice':
      return said(
        ends,
        'horizon',
        `a second row about the contact of line ${finding.other}`,
        'one row for a contact between two holes',
        'Delete one. The first is drawn.',
      );
    case 'lift_clamped':
      return said(
        ends,
        'lift_m',
        `${finding.asked_m} m, drawn ${finding.drawn_m.toFixed(2).replace('-', '−')} m`,
        'a line that crosses no other line and not the ground',
        'Choose a smaller lift. The line is drawn as far as there is room.',
      );
  }
};

const LEFT_OUT = 'Correct the row or delete it; it is not drawn.';
