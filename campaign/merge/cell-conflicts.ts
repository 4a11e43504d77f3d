/** Cells of other rows than readings that were set here and in the copy, neither knowing of the other. */
import { alike, type CellConflict } from '@stillstand/campaign/replica';
import { capital, columnName, labelColumn, placeName, schemas } from '@stillstand/campaign/tables';
import { alsoIn } from './also-in.ts';
import type { Copy } from './copy.ts';
import { bySide, LATER, type Meeting, type Question, sidesOf } from './meeting.ts';
import type { ConflictSide, MergeConflict } from './shape.ts';

/** A label and the cells that name it are one conflict, that of the label. */
export function cellConflicts(meeting: Meeting): Question[] {
  const known = new Set(meeting.ours.acts.conflicts().map(identity));
  const found = meeting.merged.acts
    .conflicts()
    .filter(
      ({ table, row_id }) => !schemas[table].readings && meeting.merged.row(table, row_id) !== undefined,
    )
    .filter((conflict) => !known.has(identity(conflict)));
  return alike(found).map((group) => {
    const leader = group.find(({ table, column }) => labelColumn(table) === column) ?? group[0]!;
    const { table, row_id, column } = leader;
    return {
      conflict: conflictOf(meeting, leader, group),
      decide: (edits, choice) => edits.settle(table, row_id, column, choice.slice(VALUE.length)),
    };
  });
}

/** In front of the value that a choice keeps. */
const VALUE = 'value ';

const identity = ({ table, row_id, column, between }: CellConflict): string =>
  JSON.stringify([table, row_id, column, between.map(({ act }) => act.id).sort()]);

function conflictOf(meeting: Meeting, leader: CellConflict, group: readonly CellConflict[]): MergeConflict {
  const { table, row_id, column, between } = leader;
  const { merged } = meeting;
  const cells = merged.row(table, row_id)!.cells;
  const called = columnName(table, column);
  const values = [...Map.groupBy(between, ({ after }) => after.trim())];
  const knows = (copy: Copy, [, acts]: (typeof values)[number]): boolean =>
    acts.some(({ act }) => copy.knows(act.id));
  const whose = sidesOf(meeting, values, knows);
  const sides = values
    .map((each): ConflictSide => {
      const [value, [first]] = each;
      const { by, device, time } = first!.act;
      const side = whose.get(each)!;
      return { side, value, words: `${called} ${value || 'nothing'}`, by, device, time, reason: '' };
    })
    .sort(bySide);
  const before = new Set(between.map((each) => each.before.trim()));
  const others = group.filter((each) => each !== leader);
  const inForce = cells[column]?.trim() ?? '';
  return {
    key: `cell ${table} ${row_id} ${column}`,
    kind: 'cell',
    table,
    row_id,
    column,
    name: `${capital(placeName(table, cells))}: ${called}${alsoIn(others)}`,
    was: before.size === 1 ? [...before][0]! : '',
    sides,
    choices: [
      ...sides.map(({ side, value }) => ({ key: VALUE + value, side, words: `Keep ${value || 'nothing'}` })),
      LATER,
    ],
    effect: [],
    until: `${capital(called)} stays ${inForce || 'empty'} until this is decided.`,
  };
}
