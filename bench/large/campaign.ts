/** The demo campaign's holes many times over, each time under labels of its own: as many rows as a long project has. */
import { type CampaignDocument, withRows } from '@stillstand/campaign/document';
import { RIG_TABLES } from '@stillstand/campaign/holes';

type Cells = Record<string, string>;

/** Columns with labels that are unique in a campaign; a cell that names one names its own copy's. */
const LABELS = [
  'hole',
  'hole_a',
  'hole_b',
  'replaces',
  'sample',
  'parent',
  'lab_code',
  'determination',
  'point',
  'row_id',
  'amends',
];

/** Tables of whose rows there is one for every hole and copy; all others stay as they are. */
const ONE_EACH = [
  'holes',
  ...RIG_TABLES,
  'pieces',
  'pushes',
  'units',
  'samples',
  'measurements',
  'determinations',
  'points',
  'point_errors',
  'correlations',
];

/** `copies` times the holes of `document` with all that belongs to them. */
export function manyTimes(document: CampaignDocument, copies: number): CampaignDocument {
  let larger = document;
  for (const name of ONE_EACH) {
    const table = document.tables.get(name);
    if (table === undefined) continue;
    const rows: Cells[] = table.rows.map(({ cells }) =>
      Object.fromEntries(table.columns.map((column, c) => [column, cells[c] ?? ''])),
    );
    const all = Array.from({ length: copies }, (_, k) =>
      rows.map((row): Cells => {
        const own = { ...row };
        for (const label of LABELS) if (own[label]) own[label] = `${own[label]}-${k + 1}`;
        return own;
      }),
    );
    larger = withRows(larger, name, all.flat());
  }
  return larger;
}
