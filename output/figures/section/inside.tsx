/**
 * What is drawn between the ends of a section, of the figure and on the screen: units, contacts, zero, lines of one age,
 * ground, staffs and ages. What must be read is placed first; what has room after it.
 */
import type { Results } from '@stillstand/campaign/results';
import type { Rect, Scale } from '@stillstand/output/drawing';
import { Ages, ageMarks, ageRects } from './ages.tsx';
import {
  type DrawnContact,
  drawnContacts,
  OtherContacts,
  placedQueries,
  Queries,
  Ties,
} from './contacts.tsx';
import {
  Bodies,
  Collars,
  collarsOf,
  type DrawnBody,
  drawnBodies,
  placedUnitNames,
  UnitNames,
} from './fill.tsx';
import { type Ground, GroundLine, groundLine } from './ground.tsx';
import { HorizonNames, placedHorizons } from './horizon-names.tsx';
import { fates, SectionLog } from './hung-column.tsx';
import type { SectionLayout, Stand } from './layout.ts';
import { holesAlong, lineOnPaper, type SectionPaper, sectionPaper } from './on-paper.ts';
import { placedTimeLines, TimeLines } from './time-lines.tsx';
import { Zero, zeroWords } from './zero.tsx';

export interface Inside {
  layout: SectionLayout;
  /** Right end of what is drawn, points. */
  width: number;
  y: Scale;
  /** Of the holes. */
  bottom: number;
  ground: Ground;
  /** Null where no hole has a place along. */
  paper: SectionPaper | null;
  bodies: DrawnBody[];
  contacts: DrawnContact[];
}

export function sectionInside(
  results: Results,
  layout: SectionLayout,
  y: Scale,
  { left, right, bottom }: { left: number; right: number; bottom: number },
): Inside {
  const paper = sectionPaper(layout, y, right);
  return {
    layout,
    width: right,
    y,
    bottom,
    ground: groundOf(layout, y, left, right),
    paper,
    bodies: drawnBodies(layout.section, results.holes, paper),
    contacts: drawnContacts(layout.section, paper),
  };
}

/** As levelled or pasted where the section has it; else level over each hole and straight between. */
export function groundOf(layout: SectionLayout, y: Scale, left: number, right: number): Ground {
  const paper = sectionPaper(layout, y, right);
  const { section, stands } = layout;
  if (section === null || paper === null || section.ground.length < 2)
    return groundLine(stands, y, left, right);
  return lineOnPaper(section.ground, paper, holesAlong(section));
}

export function SectionInside({
  results,
  inside,
  names,
  left,
  id,
}: {
  results: Results;
  inside: Inside;
  /** Boxes of the names of holes. */
  names: readonly Rect[];
  left: number;
  /** Unique in the drawing. */
  id: string;
}) {
  const { layout, width, y, ground, bottom, paper, bodies, contacts } = inside;
  const { section, stands } = layout;
  const zero = { y, label: results.datum.label, stands, ground, left, right: width };
  const words = zeroWords(zero);
  const ages = (stand: Stand) => ({ stand, y, ground, shown: layout.ages, bottom });
  // First what must be read, then what has room.
  const ofAges = stands.flatMap((stand) => ageRects(ages(stand)));
  const inTheWay = [...ofAges, ...(words === null ? [] : [words]), ...names];
  const horizons = placedHorizons(results.correlations, contacts, stands, y, ground, inTheWay);
  const holes = stands.map((s) => ({
    x1: s.x - 2,
    x2: s.x + s.width + 2,
    y1: y(s.ground_m),
    y2: y(s.bottom_m),
  }));
  const marks = stands.flatMap((stand) => ageMarks(ages(stand)));
  const taken = [
    ...inTheWay,
    ...horizons.map(({ box }) => box),
    ...holes,
    ...marks,
    ...fates(stands, y, width),
  ];
  const times = placedTimeLines(section, paper, ground, taken);
  const timeBoxes = times.flatMap(({ words: set }) => (set === null ? [] : [set.box]));
  const queries = placedQueries(section, paper, ground, width, [...taken, ...timeBoxes]);
  const queried = queries.map(({ box }) => box);
  const unitNames = placedUnitNames(bodies, ground, [...taken, ...timeBoxes, ...queried]);
  const written = [
    ...inTheWay,
    ...horizons.map(({ box }) => box),
    ...timeBoxes,
    ...queried,
    ...unitNames.map(({ box }) => box),
  ];
  return (
    <>
      <Collars collars={collarsOf(stands, y, ground, bodies)} id={id} />
      <Bodies bodies={bodies} id={id} />
      <OtherContacts contacts={contacts} written={written} />
      <Ties ties={results.correlations} contacts={contacts} stands={stands} y={y} written={written} />
      <Zero {...zero} />
      <TimeLines placed={times} written={written} />
      <GroundLine ground={ground} />
      {stands.map((stand, i) => (
        <SectionLog
          key={stand.hole.row_id}
          stand={stand}
          y={y}
          number={i + 1}
          limit={stands[i + 1]?.x ?? width}
        />
      ))}
      {stands.map((stand) => (
        <Ages key={stand.hole.row_id} {...ages(stand)} />
      ))}
      <UnitNames placed={unitNames} />
      <Queries placed={queries} />
      <HorizonNames placed={horizons} />
    </>
  );
}
