/** What holes that are planned or open are expected to meet. */
import { type ExpectationResult, resultsShape } from '@stillstand/campaign/results';
import { numberColumn, textColumn } from './column.ts';
import { columnsOf, shownAs, someOf } from './described.ts';
import { table } from './table.ts';

const { expectations } = resultsShape.fields;
const { contacts } = expectations.of.fields;

interface ContactOf {
  of: ExpectationResult;
  contact: ExpectationResult['contacts'][number];
}

const metres = { decimals: 2 } as const;
const share = { decimals: 2 } as const;

export const EXPECTED = table({
  file: 'expected.csv',
  entry: 'expectations[].contacts[]',
  about: 'contacts that holes that are planned or open are expected to meet; none of them was seen there',
  shape: contacts.of,
  rows: (results) =>
    results.expectations.flatMap((of) => of.contacts.map((contact): ContactOf => ({ of, contact }))),
  read: ({ contact }: ContactOf) => contact,
  first: columnsOf(
    someOf(expectations.of, ['hole', 'ground_m', 'described_m', 'ties', 'proposed_ties']),
    ({ of }: ContactOf) => of,
  ).map((column) => ({
    ...column,
    field: null,
  })),
  plan: {
    shown: {
      before: shownAs('before', share),
      present: shownAs('present', share),
      with_80_m: shownAs('with_80_m', metres),
      with_95_m: shownAs('with_95_m', metres),
    },
  },
  leftOut: {
    units: 'in the column bases_of',
    elevation_m: 'in three columns of elevations',
    age_cal_bp: 'in two columns of ages',
    met: 'in the column met_at_m',
  },
  last: [
    textColumn(
      { heading: 'bases_of', about: 'layers whose base it is, the nearest hole first' },
      ({ contact }: ContactOf) => contact.units.map(({ hole, unit }) => `${hole} ${unit}`).join('; '),
    ),
    ...(
      [
        ['median', 'elevation, half as probable to be deeper, m'],
        ['lower95', 'lower end of the central 95 % of the elevation, m'],
        ['upper95', 'upper end of the central 95 % of the elevation, m'],
      ] as const
    ).map(([end, about]) =>
      numberColumn(
        { heading: `elevation_${end}_m`, about },
        2,
        ({ contact }: ContactOf) => contact.elevation_m[end],
      ),
    ),
    ...(['younger', 'older'] as const).map((end) =>
      numberColumn(
        {
          heading: `${end}_cal_bp`,
          about: `its age in the hole where it is ${end === 'younger' ? 'youngest' : 'oldest'}, cal BP`,
        },
        0,
        ({ contact }: ContactOf) => contact.age_cal_bp?.[end] ?? null,
      ),
    ),
    numberColumn(
      { heading: 'met_at_m', about: 'elevation at which the hole met it, m' },
      2,
      ({ contact }: ContactOf) => contact.met?.elevation_m ?? null,
    ),
  ],
});
