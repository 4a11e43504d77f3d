/** The drawing of a section, of its own figure and as a panel: where everything stands, found once, and all but its key. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { type Scale, scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { Ages, ageMarks, ageRects } from './ages.tsx';
import { Distance, roomOfLeads, scaleAlong } from './along.tsx';
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
import { type AgesShown, type SectionLayout, type Stand, sectionLayout } from './layout.ts';
import {
  HoleNames,
  heightOfRows,
  namesInRows,
  namesOverHoles,
  nameWords,
  type PlacedName,
  rowsOfNames,
} from './names.tsx';
import { holesAlong, lineOnPaper, type SectionPaper, sectionPaper } from './on-paper.ts';
import { placedTimeLines, TimeLines } from './time-lines.tsx';
import { Zero, zeroWords } from './zero.tsx';

/** Of the staff of elevations, points. */
export const LEFT = 40;
/** For names over the highest hole, points. */
const HEAD = 34;
/** Between the staff of distances, or the drawing, and what follows. */
const FOOT = { distance: 26, none: 22 } as const;

export interface PlacedSection {
  layout: SectionLayout;
  width: number;
  y: Scale;
  ground: Ground;
  /** Null where no hole has a place along. */
  paper: SectionPaper | null;
  bodies: DrawnBody[];
  contacts: DrawnContact[];
  names: PlacedName[];
  /** Highest place where something is drawn. */
  top: number;
  /** Of the holes. */
  bottom: number;
  /** Of the distance staff. */
  staff: number;
  /** Whole height, with the words on its scale. */
  height: number;
}

export function placedSection(
  results: Results,
  width: number,
  {
    section = results.sections[0] ?? null,
    ages,
    height: asked,
  }: { section?: SectionResult | null; ages?: readonly AgesShown[]; height?: number } = {},
): PlacedSection {
  const layout = sectionLayout(results, section, LEFT, width, ages, asked);
  const { stands, distance, height } = layout;
  const words = (stand: Stand): string[] => nameWords(results, stand);
  // Where a name has no place over its hole, all stand in rows over the section.
  const asHung = (top: number) => scale(layout.top_m, layout.bottom_m, top, top + height);
  const over = namesOverHoles(stands, words, asHung(0), groundOf(layout, asHung(0), width), -HEAD, width);
  const inRows = namesInRows(stands, 0, LEFT, width, () => 0);
  const head = over === null ? 10 + heightOfRows(rowsOfNames(inRows)) : HEAD;
  const y = asHung(head);
  const ground = groundOf(layout, y, width);
  const paper = sectionPaper(layout, y, width);
  const names =
    over === null
      ? namesInRows(stands, 8, LEFT, width, (stand) => y(stand.ground_m))
      : (namesOverHoles(stands, words, y, ground, 0, width) ?? []);
  const bottom = head + height;
  const staff = bottom + roomOfLeads(layout);
  return {
    layout,
    width,
    y,
    ground,
    paper,
    bodies: drawnBodies(section, results.holes, paper),
    contacts: drawnContacts(section, paper),
    names,
    top: Math.min(head, ...names.map(({ y1 }) => y1)),
    bottom,
    staff,
    height: staff + (distance === null ? FOOT.none : FOOT.distance),
  };
}

/** As levelled or pasted where the section has it; else level over each hole and straight between. */
function groundOf(layout: SectionLayout, y: Scale, width: number): Ground {
  const paper = sectionPaper(layout, y, width);
  const { section, stands } = layout;
  if (section === null || paper === null || section.ground.length < 2)
    return groundLine(stands, y, LEFT, width);
  return lineOnPaper(section.ground, paper, holesAlong(section));
}

export function SectionDrawing({
  results,
  placed,
  id = 'section',
}: {
  results: Results;
  placed: PlacedSection;
  /** Unique in the drawing. */
  id?: string;
}) {
  const { layout, width, y, ground, bottom, paper, bodies, contacts, names } = placed;
  const { section, stands, distance } = layout;
  const along = scaleAlong(layout, y);
  const step = staffStep(y.k, 12, 10);
  const zero = { y, label: results.datum.label, stands, ground, left: LEFT, right: width };
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
      <HoleNames names={names} />
      <g id="section-elevation">
        <UprightStaff x={24} scale={y} low={layout.bottom_m} high={layout.top_m} sign {...step} />
      </g>
      {distance === null ? null : (
        <Distance layout={layout} distance={distance} y={placed.staff} bottom={bottom} />
      )}
      {along === '' ? null : (
        <Text x={width} y={placed.height - 6} anchor="end" voice="ink2">
          {along}
        </Text>
      )}
    </>
  );
}
