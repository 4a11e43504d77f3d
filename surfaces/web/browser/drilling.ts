/** The demo campaign as it stood in the field: hole T3 open, its eighth sampler in the string, nothing dated yet. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readFiles, rowsOf, withRows, writeZip } from '@stillstand/campaign/document';
import { SAFETY_QUESTIONS } from '@stillstand/campaign/holes';

const DEMO = join(import.meta.dirname, '..', '..', '..', 'demo', 'campaign');
const HOLE = 'T3';
const DAY = '2023-02-11';
/** `seq` of the sounding before run R8, at a quarter to four. */
const SEQ = 71;
/** What came after the field. */
const LATER = ['samples', 'determinations', 'points', 'point_errors', 'measurements', 'correlations'];

/** When the picture is taken: twelve minutes after the last reading. */
export const DRILLING_AT = new Date('2023-02-11T16:07:00-08:00');

export async function drillingZip(): Promise<Uint8Array<ArrayBuffer>> {
  const names = await readdir(DEMO);
  const files = await Promise.all(
    names.map(async (name) => [name, new Uint8Array(await readFile(join(DEMO, name)))] as const),
  );
  let document = readFiles(new Map(files)).document;
  const after = (row: Row): boolean => row['hole'] === HOLE && Number(row['seq']) > SEQ;
  const gone = new Set(
    rowsOf(document, 'runs').flatMap((row) => (after(row) ? [`${row['hole']}/${row['run']}`] : [])),
  );
  for (const name of document.tables.keys()) {
    const rows = rowsOf(document, name);
    const kept = LATER.includes(name)
      ? []
      : rows.filter((row) => !after(row) && !gone.has(`${row['hole']}/${row['run']}`));
    document = withRows(document, name, name === 'holes' ? kept.map(opened) : kept);
  }
  // asked and answered in the morning, and the cable marked before the run
  document = withRows(
    document,
    'checks',
    SAFETY_QUESTIONS.map(({ check, question, of }, i) => ({
      ...(of === 'hole' ? { hole: HOLE } : {}),
      date: DAY,
      check,
      question,
      answer: 'yes',
      seq: `${of === 'hole' ? 60 : 0}.${10 + i}`,
      time: `${DAY}T07:${10 + i}:00-08:00`,
      by: 'geologist',
      row_id: `check-${i}`,
    })),
  );
  document = withRows(document, 'soundings', [
    ...rowsOf(document, 'soundings'),
    {
      hole: HOLE,
      purpose: 'zero_check',
      seq: String(SEQ + 0.5),
      time: `${DAY}T15:55:00-08:00`,
      by: 'geologist',
      row_id: 'marked',
      cable_at_collar: '0 m',
    },
  ]);
  document = withRows(document, 'cable_marks', [
    {
      hole: HOLE,
      seq: String(SEQ + 0.4),
      time: `${DAY}T15:54:00-08:00`,
      by: 'geologist',
      row_id: 'taped',
      sediment: '11.65 m',
      interval: '0.5 m',
      full: '12.95 m',
      stop: '13.25 m',
    },
  ]);
  const before = rowsOf(document, 'runs');
  document = withRows(document, 'runs', [
    ...before,
    {
      hole: HOLE,
      run: 'R8',
      sampler: 'V50',
      start_mark: '11.65 m',
      seq: String(SEQ + 1),
      time: `${DAY}T15:57:00-08:00`,
      by: 'geologist',
      device: 'tablet',
      row_id: 'in-hand',
    },
  ]);
  return writeZip(document) as Uint8Array<ArrayBuffer>;
}

type Row = Record<string, string>;

const opened = (row: Row): Row =>
  row['hole'] === HOLE ? { ...row, state: 'open', end_reason: '', backfill: '' } : row;
