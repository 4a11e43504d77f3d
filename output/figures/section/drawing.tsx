/** The drawing of a section, of its own figure and as a panel: where everything stands, found once, and all but its key. */
import type { Results } from '@stillstand/campaign/results';
import { type Scale, scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { Ages, ageRects } from './ages.tsx';
import { Distance, roomOfLeads, scaleAlong } from './along.tsx';
import { type Ground, GroundLine, groundLine } from './ground.tsx';
import { HorizonNames, placedHorizons } from './horizon-names.tsx';
import { SectionLog } from './hung-column.tsx';
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
import { Ties } from './ties.tsx';
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
  { ages, height: asked }: { ages?: readonly AgesShown[]; height?: number } = {},
): PlacedSection {
  const layout = sectionLayout(results, LEFT, width, ages, asked);
  const { stands, distance, height } = layout;
  const words = (stand: Stand): string[] => nameWords(results, stand);
  // Where a name has no place over its hole, all stand in rows over the section.
  const asHung = (top: number) => scale(layout.top_m, layout.bottom_m, top, top + height);
  const over = namesOverHoles(
    stands,
    words,
    asHung(0),
    groundLine(stands, asHung(0), LEFT, width),
    -HEAD,
    width,
  );
  const inRows = namesInRows(stands, 0, LEFT, width, () => 0);
  const head = over === null ? 10 + heightOfRows(rowsOfNames(inRows)) : HEAD;
  const y = asHung(head);
  const ground = groundLine(stands, y, LEFT, width);
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
    names,
    top: Math.min(head, ...names.map(({ y1 }) => y1)),
    bottom,
    staff,
    height: staff + (distance === null ? FOOT.none : FOOT.distance),
  };
}

export function SectionDrawing({ results, placed }: { results: Results; placed: PlacedSection }) {
  const { layout, width, y, ground, bottom } = placed;
  const { stands, distance } = layout;
  const along = scaleAlong(layout, y);
  const step = staffStep(y.k, 12, 10);
  const zero = { y, label: results.datum.label, stands, ground, left: LEFT, right: width };
  const words = zeroWords(zero);
  const ages = (stand: Stand) => ({ stand, y, ground, shown: layout.ages, bottom });
  const written = [...stands.flatMap((stand) => ageRects(ages(stand))), ...(words === null ? [] : [words])];
  const horizons = placedHorizons(results.correlations, stands, y, ground, written);
  return (
    <>
      <Zero {...zero} />
      <Ties
        ties={results.correlations}
        stands={stands}
        y={y}
        written={[...written, ...horizons.map(({ box }) => box)]}
      />
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
      <HorizonNames placed={horizons} />
      <HoleNames names={placed.names} />
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
