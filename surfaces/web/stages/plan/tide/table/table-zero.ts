/** Where the heights of an official table begin, and the gauge whose readings are its waters. */
import type { Campaign, TypedRow } from '@stillstand/campaign/document';
import { TIDE_TABLE_FLAG } from '@stillstand/campaign/steps';
import { shiftBetween } from '@stillstand/science/survey';
import type { Store } from '../../../../store/index.ts';
import { freeLabel } from '../../records/free-label.ts';
import type { TableFacts } from './table-lines.ts';

/** Label of the gauge whose readings are those of a table; of a second with another zero, followed by a number. */
const GAUGE = 'Tide table';

const number = (text: string): number | null =>
  /^[+\-−]?\d+([.,]\d+)?$/.test(text.trim()) ? Number(text.trim().replace('−', '-').replace(',', '.')) : null;

/** Gauges of the site whose readings are those of tables, with their zero. */
export function tableGauges(store: Store, site: string): { gauge: string; datum: string; zero: string }[] {
  const used = new Set(
    store
      .rows('gauge_readings')
      .filter(({ cells }) => (cells['flag'] ?? '').startsWith(TIDE_TABLE_FLAG))
      .map(({ cells }) => cells['gauge']?.trim()),
  );
  return store.rows('gauges').flatMap(({ cells }) => {
    const gauge = cells['gauge']?.trim() ?? '';
    const isHere = ['', site].includes(cells['site']?.trim() ?? '');
    return isHere && (used.has(gauge) || gauge.startsWith(GAUGE))
      ? [{ gauge, datum: cells['datum']?.trim() ?? '', zero: cells['zero_elevation_m']?.trim() ?? '' }]
      : [];
  });
}

/** What the row of its gauge holds; null where the zero is not said whole. */
export function zeroCells(facts: TableFacts, campaignDatum: string): { datum: string; zero: string } | null {
  if (facts.zero === 'unknown') return { datum: '', zero: '' };
  if (facts.zero.startsWith('datum:')) return { datum: facts.zero.slice(6), zero: '0' };
  const below = facts.zero === 'below' ? number(facts.below_m) : null;
  return below === null ? null : { datum: campaignDatum, zero: String(below === 0 ? 0 : -below) };
}

/** The gauge of this zero: one that is there, else the label of a new one. Null where the zero is not said. */
export function gaugeFor(
  store: Store,
  site: string,
  facts: TableFacts,
  campaignDatum: string,
): { gauge: string; isNew: boolean } | null {
  if (facts.zero.startsWith('gauge:')) return { gauge: facts.zero.slice(6), isNew: false };
  const wanted = zeroCells(facts, campaignDatum);
  if (wanted === null) return null;
  const same = tableGauges(store, site).find(
    ({ datum, zero }) => datum === wanted.datum && (number(zero) ?? '') === (number(wanted.zero) ?? ''),
  );
  if (same !== undefined) return { gauge: same.gauge, isNew: false };
  const taken = store.rows('gauges').map(({ cells }) => cells['gauge']?.trim() ?? '');
  return { gauge: freeLabel(GAUGE, taken), isNew: true };
}

/** Elevation of the zero on the campaign datum, m; null where it is not said, or no datum shift leads there. */
export function zeroElevation(
  store: Store,
  campaign: Campaign | null,
  site: string,
  facts: TableFacts,
  campaignDatum: string,
): number | null {
  const own = facts.zero.startsWith('gauge:')
    ? tableGauges(store, site).find(({ gauge }) => gauge === facts.zero.slice(6))
    : zeroCells(facts, campaignDatum);
  const zero = own === undefined || own === null ? null : number(own.zero);
  if (own === undefined || own === null || zero === null) return null;
  if (own.datum === '' || own.datum === campaignDatum) return zero;
  const shifts = (campaign?.rows.datum_shifts ?? []).map((row) => ({ ...row, sigma_m: row.sigma_m ?? 0 }));
  const shift = shiftBetween(shifts, own.datum, campaignDatum);
  return shift === null ? null : zero + shift.shift_m;
}

/** The site’s LAT as entered on the campaign datum, m; null where it is not. */
export function latOf(levels: readonly TypedRow[], site: string, campaignDatum: string): number | null {
  const row = levels.find(
    ({ cells }) =>
      cells['level']?.trim().toUpperCase() === 'LAT' &&
      (cells['site']?.trim() ?? '') === site &&
      (cells['datum']?.trim() || campaignDatum) === campaignDatum,
  );
  return number(row?.cells['elevation_m'] ?? '');
}
