/** The dose rate of a row with contents, water, grains and the cosmic dose. */
import {
  contentOf,
  type DoseFactors,
  type DoseRate,
  doseRate,
  type Element,
  type Measured,
} from '@stillstand/science/luminescence';
import { foundIn, withError, withErrorOrNone } from './measured-row.ts';
import type { PlainRow, PlainTable } from './plain-table.ts';

const CONTENT: Record<Element, string> = {
  uranium: 'uranium_ppm',
  thorium: 'thorium_ppm',
  potassium: 'potassium_percent',
};
/** Columns of what science names. */
const COLUMNS: Readonly<Record<string, string>> = {
  ...CONTENT,
  water: 'water_percent',
  cosmic: 'cosmic_gy_ka',
  internal: 'internal_gy_ka',
  depth: 'depth_m',
  grains: 'grain_from_um',
};

type Read = { value: number; sd: number } | null;

const random = (read: Read): Measured | null =>
  read === null ? null : { value: read.value, random: read.sd, systematic: 0 };
/** Water and the cosmic dose are off alike for samples of one place (common practice, no source). */
const shared = (read: Read, times = 1): Measured | null =>
  read === null ? null : { value: times * read.value, random: 0, systematic: times * read.sd };

/** Null with a problem of the row. */
export function rateOfContents(
  table: PlainTable,
  row: PlainRow,
  sigmas: number,
  factors: DoseFactors,
): DoseRate | null {
  const uranium = content(row, 'uranium', sigmas, factors);
  const thorium = content(row, 'thorium', sigmas, factors);
  const potassium = content(row, 'potassium', sigmas, factors);
  const water = shared(withError(row, 'water_percent', {}, sigmas), 0.01);
  const cosmic = shared(withError(row, 'cosmic_gy_ka', {}, sigmas));
  const from_um = row.needed('grain_from_um', { min: 0 });
  const to_um = row.needed('grain_to_um', { above: 0 });
  const etched = isEtched(row);
  const before = table.problems.length;
  const internal = shared(withErrorOrNone(row, 'internal_gy_ka', {}, sigmas));
  const alpha_efficiency = shared(withErrorOrNone(row, 'alpha_efficiency', {}, sigmas));
  const beta_attenuation = shared(withErrorOrNone(row, 'beta_attenuation', {}, sigmas));
  const depth_m = row.number('depth_m', { min: 0 });
  if (uranium === null || thorium === null || potassium === null || water === null || cosmic === null)
    return null;
  if (from_um === null || to_um === null || etched === null || table.problems.length > before) return null;
  const made = doseRate(
    {
      uranium,
      thorium,
      potassium,
      water,
      cosmic,
      grains: { from_um, to_um, etched },
      ...(internal === null ? {} : { internal }),
      alpha_efficiency,
      beta_attenuation,
      depth_m,
    },
    factors,
  );
  const severity = made.kind === 'rate' ? 'warning' : 'error';
  for (const finding of made.kind === 'rate' ? made.doubts : made.findings) {
    const of = COLUMNS[finding.of] ?? finding.of;
    table.problems.push(foundIn(table.name, row, { ...finding, of }, severity));
  }
  if (made.kind !== 'rate') return null;
  const { source, from_memory } = factors.specific_activity;
  const hasActivities = ELEMENTS.some((element) => isActivity(row, element));
  return hasActivities
    ? { ...made, used: [...made.used, { name: 'specific activities', source, from_memory }] }
    : made;
}

const ELEMENTS = ['uranium', 'thorium', 'potassium'] as const satisfies readonly Element[];

/** Whether the row states Bq/kg and no content. */
const isActivity = (row: PlainRow, element: Element): boolean =>
  row.text(CONTENT[element]) === '' && row.text(`${element}_bq_kg`) !== '';

/** From the content, or else from the activity in Bq/kg. */
function content(row: PlainRow, element: Element, sigmas: number, factors: DoseFactors): Measured | null {
  if (!isActivity(row, element)) return random(withError(row, CONTENT[element], {}, sigmas));
  const read = random(withError(row, `${element}_bq_kg`, {}, sigmas));
  return read === null ? null : contentOf(element, read, factors);
}

/** Null with a problem: whether grains were etched decides the alpha dose, so that none is assumed. */
function isEtched(row: PlainRow): boolean | null {
  const said = row.text('etched').toLowerCase();
  if (said === 'yes' || said === 'no') return said === 'yes';
  row.problem(
    'etched',
    row.text('etched'),
    'yes or no',
    'Say whether the grains were etched; no rate until then.',
  );
  return null;
}
