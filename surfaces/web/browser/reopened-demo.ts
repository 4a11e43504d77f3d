/**
 * The demo on the day M1 was drilled, its shoe a metre above the basal peat, and P1 planned next to it. What M1 met
 * later is taken out; what was correlated by way of it is correlated itself. Invented data, from demo/.
 */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type CampaignDocument, rowsOf, withRows } from '@stillstand/campaign/document';
import { openFiles } from '@stillstand/campaign/versions';
import type { Cells } from './document-of.ts';

const DEMO = join(import.meta.dirname, '..', '..', '..', 'demo', 'campaign');
/** The reading before the last drive of M1. */
const LAST = 38;
const LATER_RUNS: ReadonlySet<string> = new Set(['R4', 'R5', 'R6']);

/** `cells`: more of P1. `tied`: changes the correlations. */
export async function reopenedDemo(
  cells: Cells = {},
  tied: (correlations: Cells[]) => Cells[] = (correlations) => correlations,
): Promise<CampaignDocument> {
  const names = await readdir(DEMO);
  const files = new Map(
    await Promise.all(names.map(async (name) => [name, await readFile(join(DEMO, name))] as const)),
  );
  let { document } = openFiles(files);
  const put = (table: string, change: (rows: Cells[]) => Cells[]): void => {
    document = withRows(document, table, change(rowsOf(document, table)));
  };
  for (const table of document.tables.keys())
    put(table, (rows) => rows.filter(({ hole, seq }) => hole !== 'M1' || Number(seq ?? 0) <= LAST));
  const isLater = ({ hole, run, unit }: Cells): boolean =>
    hole === 'M1' && (LATER_RUNS.has(run ?? '') || Number(unit ?? 0) > 2);
  put('units', (rows) => rows.filter((row) => !isLater(row)));
  const gone = new Set(
    rowsOf(document, 'samples')
      .filter(isLater)
      .map(({ sample }) => sample!),
  );
  for (const table of ['samples', 'determinations', 'points', 'measurements', 'custody'])
    put(table, (rows) => rows.filter(({ sample }) => !gone.has(sample ?? '')));
  put('correlations', (rows) => [
    ...rows.filter(
      ({ hole_a, unit_a, hole_b, unit_b }) =>
        !isLater({ hole: hole_a!, unit: unit_a! }) && !isLater({ hole: hole_b!, unit: unit_b! }),
    ),
    {
      ...{ hole_a: 'T3', unit_a: '10', hole_b: 'M2', unit_b: '5' },
      ...{ horizon: 'basal peat', confidence: 'certain', row_id: 'by-way-of-M1' },
    },
  ]);
  put('correlations', tied);
  put('holes', (rows) => [
    ...rows.map((row) =>
      row['hole'] === 'M1' ? { ...row, state: 'open', end_reason: '', ended_at: '', backfill: '' } : row,
    ),
    {
      ...{ hole: 'P1', site: 'TS', method: 'string', state: 'planned', row_id: 'planned-P1' },
      ...{ latitude_deg: '-46.41046', longitude_deg: '-121.31390' },
      ...cells,
    },
  ]);
  return document;
}
