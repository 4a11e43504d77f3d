/** The drawing of a section, of its own figure and as a panel: where everything stands, found once, and all but its key. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { ageRects } from './ages.tsx';
import { Distance, roomOfLeads, scaleAlong } from './along.tsx';
import { groundOf, type Inside, SectionInside, sectionInside } from './inside.tsx';
import { AGE_ROW, type AgesShown, type Stand, sectionLayout, UNDER } from './layout.ts';
import {
  HoleNames,
  heightOfRows,
  namesInRows,
  namesOverHoles,
  nameWords,
  type PlacedName,
  rowsOfNames,
} from './names.tsx';

/** Of the staff of elevations, points. */
export const LEFT = 40;
/** For names over the highest hole, points. */
const HEAD = 34;
/** Between the staff of distances, or the drawing, and what follows. */
const FOOT = { distance: 26, none: 22 } as const;

export interface PlacedSection extends Inside {
  names: PlacedName[];
  /** Highest place where something is drawn. */
  top: number;
  /** Of all that is drawn at the holes. */
  foot: number;
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
  const over = namesOverHoles(
    stands,
    words,
    asHung(0),
    groundOf(layout, asHung(0), LEFT, width),
    -HEAD,
    width,
  );
  const inRows = namesInRows(stands, 0, LEFT, width, () => 0);
  const head = over === null ? 10 + heightOfRows(rowsOfNames(inRows)) : HEAD;
  const y = asHung(head);
  const bottom = head + height;
  const inside = sectionInside(results, layout, y, { left: LEFT, right: width, bottom });
  const names =
    over === null
      ? namesInRows(stands, 8, LEFT, width, (stand) => y(stand.ground_m))
      : (namesOverHoles(stands, words, y, inside.ground, 0, width) ?? []);
  const written = stands.flatMap((stand) =>
    ageRects({ stand, y, ground: inside.ground, shown: layout.ages, bottom }),
  );
  // Down to the lowest age, where one reaches below the holes.
  const foot = Math.max(bottom, ...written.map(({ y2 }) => y2 - UNDER - AGE_ROW));
  const staff = foot + roomOfLeads(layout);
  return {
    ...inside,
    names,
    foot,
    top: Math.min(head, ...names.map(({ y1 }) => y1)),
    staff,
    height: staff + (distance === null ? FOOT.none : FOOT.distance),
  };
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
  const { layout, width, y, names } = placed;
  const { distance } = layout;
  const along = scaleAlong(layout, y);
  const step = staffStep(y.k, 12, 10);
  return (
    <>
      <SectionInside results={results} inside={placed} names={names} left={LEFT} id={id} />
      <HoleNames names={names} />
      <g id="section-elevation">
        <UprightStaff x={24} scale={y} low={layout.bottom_m} high={layout.top_m} sign {...step} />
      </g>
      {distance === null ? null : (
        <Distance layout={layout} distance={distance} y={placed.staff} bottom={placed.foot} />
      )}
      {along === '' ? null : (
        <Text x={width} y={placed.height - 6} anchor="end" voice="ink2">
          {along}
        </Text>
      )}
    </>
  );
}
