/** Readings that were amended here and in the copy, and come to different things. */
import { type Choice, choicesOf, type Reading, typedReadings } from '@stillstand/campaign/document';
import type { DocRow } from '@stillstand/campaign/replica';
import {
  capital,
  clockOf,
  columnName,
  placeName,
  plainWord,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { Copy } from './copy.ts';
import { bySide, LATER, type Meeting, type Question, sidesOf } from './meeting.ts';
import type { ConflictChoice, ConflictSide, MergeConflict } from './shape.ts';

const READINGS = (Object.keys(schemas) as TableName[]).filter((table) => schemas[table].readings);

/** The choice of a reading withdrawn; no row is called so, as identities have no blanks. */
const WITHDRAWN = 'the reading withdrawn';

export const amendmentConflicts = (meeting: Meeting): Question[] =>
  READINGS.flatMap((table) =>
    typedReadings(table, meeting.merged.rows(table))
      .all.filter((reading) => reading.state === 'conflict')
      .filter((reading) => !hadIt(meeting.ours, table, reading))
      .map((reading) => ({
        conflict: conflictOf(meeting, table, reading),
        decide: (edits, choice) =>
          edits.decide(table, reading.first.row_id, choice === WITHDRAWN ? null : choice),
      })),
  );

/** It was open there before, between the same. */
function hadIt(copy: Copy, table: TableName, { first, between }: Reading<DocRow>): boolean {
  const there = typedReadings(table, copy.rows(table)).of.get(first.row_id.normalize('NFC'));
  const ids = (rows: readonly (DocRow | null)[]): string =>
    JSON.stringify(rows.map((row) => row?.row_id).sort());
  return there?.state === 'conflict' && ids(there.between) === ids(between);
}

function conflictOf(meeting: Meeting, table: TableName, reading: Reading<DocRow>): MergeConflict {
  const { first, rows } = reading;
  const choices = choicesOf(table, reading);
  const says = choices[0]?.says ?? [];
  const columns = says.map(({ column }) => columnName(table, column)).join(', ');
  const textOf = ({ says: said }: { says: Choice['says'] }): string =>
    said.length === 1
      ? said[0]!.text
      : said.map(({ column, text }) => `${columnName(table, column)} ${text || 'nothing'}`).join(', ');
  const rowOf = (row_id: string | null): DocRow | undefined =>
    row_id === null
      ? reading.amendments.find(({ cells }) => plainWord(cells['amend_kind'] ?? '') === 'withdraw')
      : rows.find((row) => row.row_id === row_id);
  const rivals = choices.filter(({ isFirst }) => !isFirst);
  const asWritten = choices.find(({ isFirst }) => isFirst)!;
  const sides = sidesOf(meeting, rivals, (copy, { row_id }) => {
    const row = rowOf(row_id);
    return row !== undefined && copy.row(table, row.row_id) !== undefined;
  });
  const time = clockOf(first.cells['time']?.trim());
  return {
    key: `amendment ${table} ${first.row_id}`,
    kind: 'amendment',
    table,
    row_id: first.row_id,
    column: '',
    name: `${capital(placeName(table, first.cells))}${columns === '' ? '' : `: ${columns}`}`,
    was: [textOf(asWritten), ...(time === '' ? [] : [`at ${time}`])].filter(Boolean).join(' '),
    sides: rivals
      .map((rival): ConflictSide => {
        const cells = rowOf(rival.row_id)?.cells ?? {};
        const value = textOf(rival);
        const one = says.length === 1 ? `${columns} ${value || 'nothing'}` : value;
        return {
          side: sides.get(rival)!,
          value,
          words: rival.row_id === null ? 'withdrawn' : one,
          by: cells['by']?.trim() ?? '',
          device: cells['device']?.trim() ?? '',
          time: cells['time']?.trim() ?? '',
          reason: cells['amend_reason']?.trim() ?? '',
        };
      })
      .sort(bySide),
    choices: [
      ...choices
        .map((choice): ConflictChoice => {
          const value = choice.row_id === null ? 'the reading withdrawn' : textOf(choice) || 'nothing';
          return {
            key: choice.row_id ?? WITHDRAWN,
            side: sides.get(choice) ?? null,
            words: `Keep ${value}${choice.isFirst ? ', as first written' : ''}`,
          };
        })
        .sort(bySide),
      LATER,
    ],
    effect: [],
    until: 'The reading is not used until this is decided.',
  };
}
