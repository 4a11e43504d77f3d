/** Section lines: their holes, and the contacts drawn between these. */
import { resultsShape, type SectionResult } from '@stillstand/campaign/results';
import { type Column, numberColumn } from './column.ts';
import { columnsOf, shownAs, someOf } from './described.ts';
import { itself, table } from './table.ts';

const { sections } = resultsShape.fields;
const { holes, contacts } = sections.of.fields;
const DRAWN = 'a line to be drawn, in results.json';
const metres = { decimals: 1 } as const;

interface OfSection {
  of: SectionResult;
}
interface HoleOf extends OfSection {
  hole: SectionResult['holes'][number];
}
interface ContactOf extends OfSection {
  contact: SectionResult['contacts'][number];
}

/** Which line a row belongs to: no field of the entry. */
const whose = <Row extends OfSection>(): Column<Row>[] =>
  columnsOf(someOf(sections.of, ['line']), ({ of }: Row) => of).map((column) => ({ ...column, field: null }));

export const SECTIONS = table({
  file: 'sections.csv',
  entry: 'sections[]',
  about: sections.of.about,
  shape: sections.of,
  rows: (results) => results.sections,
  read: itself<SectionResult>,
  plan: { shown: { length_m: shownAs('length_m', metres) } },
  leftOut: {
    holes: 'in section_holes.csv',
    contacts: 'in section_contacts.csv',
    ground: DRAWN,
    bodies: DRAWN,
    queries: DRAWN,
    time_lines: DRAWN,
  },
});

export const SECTION_HOLES = table({
  file: 'section_holes.csv',
  entry: 'sections[].holes[]',
  about: 'holes of the section lines, in their order',
  shape: holes.of,
  rows: (results) => results.sections.flatMap((of) => of.holes.map((hole): HoleOf => ({ of, hole }))),
  read: ({ hole }: HoleOf) => hole,
  first: whose<HoleOf>(),
  plan: { shown: { along_m: shownAs('along_m', metres), offset_m: shownAs('offset_m', metres) } },
});

const alongOf = ({ contact }: ContactOf): number[] => contact.line.map(({ along_m }) => along_m);

export const SECTION_CONTACTS = table({
  file: 'section_contacts.csv',
  entry: 'sections[].contacts[]',
  about: 'contacts drawn between the holes of the section lines',
  shape: contacts.of,
  rows: (results) =>
    results.sections.flatMap((of) => of.contacts.map((contact): ContactOf => ({ of, contact }))),
  read: ({ contact }: ContactOf) => contact,
  first: whose<ContactOf>(),
  leftOut: { line: DRAWN },
  last: [
    numberColumn({ heading: 'from_m', about: 'where it begins along the line, m' }, 1, (row: ContactOf) =>
      Math.min(...alongOf(row)),
    ),
    numberColumn({ heading: 'to_m', about: 'where it ends along the line, m' }, 1, (row: ContactOf) =>
      Math.max(...alongOf(row)),
    ),
  ],
});
