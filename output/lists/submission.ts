/** The sheet that goes with a parcel: what each sample is, what is asked for, and room for the laboratory to fill in. */
import type { Campaign } from '@stillstand/campaign/document';
import { methodAsked, SHEET_ASKS, SHEET_SAMPLE, SHEET_SAYS } from '@stillstand/campaign/import';
import type { Estimate, Results } from '@stillstand/campaign/results';
import { labelCode, type Row } from '@stillstand/campaign/tables';
import { placeWords } from '@stillstand/output/labels';
import { decimalsFor, written } from '@stillstand/output/words';
import type { List, ListColumn, ListRow } from './list.ts';
import type { Parcel, ParcelSample } from './parcel.ts';

/** What the laboratory fills in is read back as it is. */
const TO_FILL_IN = [
  'Depths are below ground; ± is 2σ.',
  `Laboratory: please fill in the columns from “${SHEET_ASKS.lab_code}” on and return this sheet as CSV or XLSX. It is read without further work.`,
  `“${SHEET_ASKS.value}”: conventional radiocarbon age in 14C yr BP, or F14C with F14C in “${SHEET_ASKS.reported_as}”; for other methods the age in years before 1950.`,
];

/** Elevations and expected ages are those of the results, and left off where there are none. */
export function submissionOf(campaign: Campaign, results: Results | null, parcel: Parcel): List {
  const lab = campaign.rows.laboratories.find((row) => row.laboratory === parcel.laboratory);
  const to = [parcel.laboratory, lab?.address, lab?.contact].filter(Boolean).join(', ');
  const datum = results === null ? '' : results.datum.label;
  return {
    title: `Submission ${parcel.label}`.trim(),
    head: [
      ['Campaign', campaign.name === '' ? 'without a name' : campaign.name],
      ['From', parcel.sender],
      ['To', to],
      ['Date', parcel.date],
      ['Samples', String(parcel.samples.length)],
    ],
    notes: [...(datum === '' ? [] : [`Elevations are above ${datum}.`]), ...TO_FILL_IN],
    columns: COLUMNS.map(({ column }) => column),
    rows: parcel.samples.map((sent) => rowOf(campaign, results, sent)),
  };
}

interface Facts {
  sent: ParcelSample;
  row: Row<'samples'> | undefined;
  site: string;
  code: string;
  depth: Estimate | null;
  elevation: Estimate | null;
  age: string;
}

function rowOf(campaign: Campaign, results: Results | null, sent: ParcelSample): ListRow {
  const row = campaign.rows.samples.find(({ sample }) => sample === sent.sample);
  const of = results?.samples.find(({ sample }) => sample === sent.sample);
  const hole = campaign.rows.holes.find((each) => each.hole === row?.hole);
  const code = labelCode(campaign.id, { kind: 'sample', sample: sent.sample });
  const facts: Facts = {
    sent,
    row,
    code,
    site: row?.site ?? hole?.site ?? '',
    depth: of?.depth_m ?? null,
    elevation: of?.elevation_m ?? null,
    age: ageExpected(results, sent.sample),
  };
  return { code: row?.identifier ?? code, cells: COLUMNS.map(({ cell }) => cell(facts)) };
}

/** "8200–7600", 95 %, where the ages of its hole are modelled. */
function ageExpected(results: Results | null, sample: string): string {
  const of = results?.histories.flatMap(({ samples }) => samples).find((one) => one.sample === sample);
  return of === undefined ? '' : `${written(of.age_cal_bp.upper95, 0)}–${written(of.age_cal_bp.lower95, 0)}`;
}

const value = (of: Estimate | null): string => (of === null ? '' : written(of.value, decimalsOf(of)));
const error = (of: Estimate | null): string => (of === null ? '' : written(2 * of.sigma, decimalsOf(of)));
const decimalsOf = ({ sigma }: Estimate): number => decimalsFor(2 * sigma, 2, 3);

const text = (
  heading: string,
  cell: (facts: Facts) => string | null | undefined,
  more: Pick<ListColumn, 'within' | 'isToFillIn'> = {},
) => ({ column: { heading, isNumber: false, ...more }, cell: (facts: Facts): string => cell(facts) ?? '' });
const number = (heading: string, cell: (facts: Facts) => string, within: string) => ({
  column: { heading, isNumber: true, within },
  cell,
});
const toFillIn = (heading: string, within?: string) =>
  text(heading, () => '', { isToFillIn: true, ...(within === undefined ? {} : { within }) });

const NAME = { within: 'sample' };
const WHERE = { within: 'from' };
const SENT = { within: 'sent' };
const ASKED = { within: SHEET_SAYS.request };

const COLUMNS: readonly { column: ListColumn; cell: (facts: Facts) => string }[] = [
  text(SHEET_SAMPLE, ({ sent }) => sent.sample, NAME),
  text(SHEET_SAYS.code, ({ code }) => code, NAME),
  text(SHEET_SAYS.identifier, ({ row }) => row?.identifier, NAME),
  text(SHEET_SAYS.hole, ({ row }) => row?.hole, WHERE),
  text(SHEET_SAYS.site, ({ site }) => site, WHERE),
  text(SHEET_SAYS.position, ({ row }) => (row?.hole == null ? '' : placeWords(row).join(', ')), WHERE),
  number(SHEET_SAYS.depth, ({ depth }) => value(depth), 'depth, m'),
  number(SHEET_SAYS.depth_error, ({ depth }) => error(depth), 'depth, m'),
  number(SHEET_SAYS.elevation, ({ elevation }) => value(elevation), 'elevation, m'),
  number(SHEET_SAYS.elevation_error, ({ elevation }) => error(elevation), 'elevation, m'),
  text(SHEET_SAYS.material, ({ row }) => row?.material, SENT),
  text(SHEET_SAYS.amount, ({ sent }) => sent.amount, SENT),
  text(SHEET_SAYS.request, ({ sent }) => sent.request, ASKED),
  text(SHEET_SAYS.age, ({ age }) => age, ASKED),
  text(SHEET_SAYS.note, ({ sent }) => sent.note),
  text(SHEET_ASKS.method, ({ sent }) => methodAsked(sent.request), { within: 'result' }),
  toFillIn(SHEET_ASKS.lab_code),
  toFillIn(SHEET_ASKS.value, 'result'),
  toFillIn(SHEET_ASKS.error, 'result'),
  toFillIn(SHEET_ASKS.reported_as, 'result'),
  toFillIn(SHEET_ASKS.delta13c),
  toFillIn(SHEET_ASKS.fraction, 'remarks'),
  toFillIn(SHEET_ASKS.remarks, 'remarks'),
];
