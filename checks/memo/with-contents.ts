/** A campaign with a sand near the ground whose dose rate follows from contents. Invented data. */
import type { CampaignText, Cells } from './campaign-text.ts';

const SAND = 'shallow sand';
const measured = (property: string, value: string, unit: string, sigma = ''): Cells => ({
  row_id: `contents ${property}`,
  sample: SAND,
  property,
  value,
  unit,
  sigma,
});

export function withContents(text: CampaignText, hole: string): CampaignText {
  const and = (table: string, rows: Cells[]): Cells[] => [...(text[table] ?? []), ...rows];
  return {
    ...text,
    samples: and('samples', [
      {
        row_id: 'contents sample',
        sample: SAND,
        hole,
        depth_basis: 'in_situ',
        top: '0.10 m',
        bottom: '0.12 m',
        material: 'sand',
      },
    ]),
    determinations: and('determinations', [
      {
        row_id: 'contents date',
        lab_code: 'contents',
        sample: SAND,
        method: 'luminescence',
        reference_year: '2020',
      },
    ]),
    measurements: and('measurements', [
      measured('equivalent dose', '1.4', 'Gy', '0.1'),
      measured('uranium', '0.63', 'ppm', '0.03'),
      measured('thorium', '2.11', 'ppm', '0.1'),
      measured('potassium', '0.61', '%', '0.03'),
      measured('water since burial', '32', '%', '6'),
      measured('cosmic dose rate', '0.16', 'Gy/ka', '0.016'),
      measured('grain size from', '180', 'µm'),
      measured('grain size to', '250', 'µm'),
      measured('etched layer', '10', 'µm'),
    ]),
  };
}
