/** Published cores as profiles. Sources: data/README.md. */
import { readFileSync } from 'node:fs';
import type { Activity, LeadSlice } from '@stillstand/science/lead';

/** 1 disintegration a minute in a gram is 1000/60 Bq/kg. */
const BQ_KG_OF_DPM_G = 1000 / 60;

type Cells = Record<string, string>;

export function rowsOf(name: string): Cells[] {
  const text = readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8');
  const [headings, ...lines] = text
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  return lines.map((cells) => Object.fromEntries(headings!.map((heading, i) => [heading, cells[i]!])));
}

/** An activity of the columns `NAME_UNIT` and `NAME_sigma`; null where there is none. */
function activity(row: Cells, name: string): Activity | null {
  const [dpm, bq, sigma] = [row[`${name}_dpm_g`], row[`${name}_bq_kg`], row[`${name}_sigma`]];
  const value = dpm ?? bq;
  if (value === undefined || value === '') return null;
  const factor = dpm === undefined ? 1 : BQ_KG_OF_DPM_G;
  return { bq_kg: factor * Number(value), sigma_bq_kg: factor * Number(sigma ?? 0) };
}

export const sliceOf = (row: Cells): LeadSlice => ({
  id: `${row['top_cm']}–${row['bottom_cm']} cm`,
  top_m: Number(row['top_cm']) / 100,
  bottom_m: Number(row['bottom_cm']) / 100,
  total: activity(row, 'total') ?? activity(row, 'excess'),
  supported: activity(row, 'radium'),
  density_g_cm3: row['dry_density_g_cm3'] === '' ? null : Number(row['dry_density_g_cm3']),
  caesium: activity(row, 'caesium'),
});
