/** What the history next to the tables of a campaign says that its tables do not. */
import { type CampaignDocument, rowIds } from '@stillstand/campaign/document';
import { HISTORY_PATH, type Replica, replicaOf } from '@stillstand/campaign/history';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { actsOf, type CellConflict, readTable, writerWords } from '@stillstand/campaign/replica';
import { columnName, rowName } from '@stillstand/campaign/tables';
import { migrate } from '@stillstand/campaign/versions';

/** A campaign at hand with its history; null where it has none. */
export const replicaIn = (document: CampaignDocument): Replica | null =>
  document.files.has(HISTORY_PATH)
    ? replicaOf({ document, read_only: migrate(document).read_only }, rowIds(document))
    : null;

/** How many acts there are, and what is wrong: a history that was not used, values set on two devices. */
export function historyOf(document: CampaignDocument): { acts: number; problems: Problem[] } | null {
  const replica = replicaIn(document);
  if (replica === null) return null;
  const { doc, problems } = replica;
  const acts = actsOf(doc, true);
  return {
    acts: acts.all().length,
    problems: [
      ...problems,
      ...acts.conflicts().map((conflict) => {
        const known = readTable(doc, conflict.table, { layout: '', rows: new WeakMap() });
        const row = known?.rows.find(({ row_id }) => row_id === conflict.row_id);
        return inConflict(conflict, row?.cells ?? {}, row?.line ?? null);
      }),
    ],
  };
}

function inConflict(
  { table, row_id, column, between }: CellConflict,
  cells: Readonly<Record<string, string>>,
  line: number | null,
): Problem {
  const said = between.map(({ act, after }) => `${after === '' ? 'nothing' : after} (${writerWords(act)})`);
  const now = cells[column] ?? '';
  return problem({
    severity: 'warning',
    code: 'set-on-two-devices',
    table,
    row_id,
    line,
    label: rowName(table, cells),
    column,
    found: said.join(' or '),
    expected: `one ${columnName(table, column)}, set by somebody who knew both`,
    fix: `Decide in the app. Until then ${now === '' ? 'nothing' : `“${now}”`} is used.`,
  });
}
