/** What cannot be drawn of a section, said of the row it is about. */
import type { Campaign } from '@stillstand/campaign/document';
import type { SectionFinding } from '@stillstand/science/correlate';
import type { Complain } from '../complaint.ts';
import { unsignedMetres } from '../words/numbers.ts';
import type { LineRow } from './asked.ts';
import type { BoundaryRow } from './boundaries.ts';
import type { PlacedLine } from './placed.ts';

export interface Complaints {
  ofLines: Complain<LineRow>;
  ofBoundaries: Complain<BoundaryRow>;
}

/** Ties that cross are named among the correlations. */
export function complainOfFindings(
  campaign: Campaign,
  { row: line }: PlacedLine,
  findings: readonly SectionFinding[],
  { ofLines, ofBoundaries }: Complaints,
): void {
  const rows = new Map(campaign.rows.section_boundaries.map((row) => [row.row_id, row]));
  for (const finding of findings) {
    if (finding.kind === 'tie_crosses') continue;
    if (finding.kind === 'one_place') {
      if (line !== null)
        ofLines(
          line,
          'section-holes-at-one-place',
          'holes',
          `${finding.hole_a} and ${finding.hole_b} at one place along the line`,
          'holes apart along the line',
          'Remove one of them from the line, or correct its position. Until then nothing is drawn between the two.',
          'warning',
        );
      continue;
    }
    const row = rows.get(finding.row_id);
    if (row === undefined) continue;
    const [code, column, found, expected, fix] = said(finding, row);
    ofBoundaries(row, code, column, found, expected, fix, 'warning');
  }
}

type BoundaryFinding = Exclude<SectionFinding, { kind: 'tie_crosses' | 'one_place' }>;

function said(
  finding: BoundaryFinding,
  { hole_a, hole_b, horizon, line }: BoundaryRow,
): [code: string, column: string, found: string, expected: string, fix: string] {
  const between = hole_b === null ? hole_a : `${hole_a} and ${hole_b}`;
  switch (finding.kind) {
    case 'boundary_off_line':
      return [
        'section-boundary-off-line',
        finding.hole === hole_a ? 'hole_a' : 'hole_b',
        `${finding.hole}, no hole of ${line}`,
        `a hole of ${line}`,
        'Correct the hole, add it to the line, or delete the row. Until then the row is not drawn.',
      ];
    case 'boundary_not_neighbours':
      return [
        'section-boundary-not-neighbours',
        'hole_b',
        `${between}, with a hole between them`,
        'two holes next to each other on the line',
        'Name the next hole. Until then the row is not drawn.',
      ];
    case 'boundary_without_contact':
      return [
        'section-boundary-without-contact',
        'horizon',
        `${horizon}, no contact between ${between} on ${line}`,
        `a horizon that is correlated there, or a unit of ${hole_a}`,
        'Correct the horizon or the holes, or delete the row. Until then it is not drawn.',
      ];
    case 'boundary_against_tie':
      return [
        'section-boundary-against-correlation',
        'ending',
        `${horizon} ends, and is in both ${between}`,
        'an end of a contact that only one of the two holes has',
        'Refuse the correlation, or choose continuous. Until then the contact is drawn through.',
      ];
    case 'no_fingers':
      return [
        'section-no-fingers',
        'ending',
        `fingers at ${horizon} between ${between}`,
        'one unit of each hole, of different sediments, between two correlated contacts',
        'Correlate what lies above and below, or choose another ending. Until then it is drawn without fingers.',
      ];
    case 'boundary_twice':
      return [
        'section-boundary-twice',
        'horizon',
        `a second row about ${horizon} between ${between}`,
        'one row for a contact between two holes',
        'Delete one of them. Until then the first is drawn.',
      ];
    case 'lift_clamped':
      return [
        'section-lift-too-much',
        'lift_m',
        `${unsignedMetres(finding.asked_m)} m, drawn ${unsignedMetres(finding.drawn_m)} m`,
        'a line that crosses no other line and not the ground',
        'Choose a smaller lift, or lift the other line first. Until then the line is drawn as far as there is room.',
      ];
  }
}
