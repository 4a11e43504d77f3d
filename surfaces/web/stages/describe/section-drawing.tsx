/** The section: holes hung at their elevation, ties between them, and the base of every unit to be picked. */
import type { Results } from '@stillstand/campaign/results';
import {
  INKS,
  InkContext,
  LINE,
  polyline,
  type Rect,
  type Scale,
  SIZE,
  scale,
  sedimentOfUnit,
  staffStep,
  TEXT_FAMILY,
  Text,
  textWidth,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import {
  Ages,
  ageRects,
  GroundLine,
  groundLine,
  HoleHead,
  HorizonNames,
  nameWords,
  placedHorizons,
  SectionLog,
  type Stand,
  sectionLayout,
  tieDashes,
  tieLine,
  unitWidth,
} from '@stillstand/output/figures';
import { Pad } from './drawing/pad.tsx';
import type { Proposed } from './proposed.ts';
import { ProposedLines } from './proposed-lines.tsx';
import { isSame, type Place, type Tied } from './tie.ts';

/** Screen pixels a point: its smallest labels, 6 pt in print, are the 13 px of the screen's figures. */
const PX = 13 / SIZE.small;
/** Room of the staff and its figures, which stay in sight while the holes are moved sideways. */
const LEFT = 36;
const STAFF_X = 25;
const HEAD = 30;
/** The least target, 48 px, in points. */
const TOUCH = 48 / PX;

export function SectionDrawing({
  results,
  ties,
  proposed,
  picked,
  chosen,
  width: pixels,
  theme,
  onPick,
  onChoose,
  onHole,
  onEscape,
}: {
  results: Results;
  ties: readonly Tied[];
  proposed: readonly Proposed[];
  picked: Place | null;
  chosen: string | null;
  width: number;
  theme: 'day' | 'night';
  onPick: (place: Place) => void;
  onChoose: (row_id: string) => void;
  onHole: (hole: string) => void;
  onEscape: () => void;
}) {
  // Of many holes, and on a phone, the section is wider than the screen and is pushed aside: each name is whole.
  const name = Math.max(...results.holes.map(({ hole }) => textWidth(hole, { weight: 600 })));
  const width = Math.max(pixels / PX, 84 + results.holes.length * Math.max(46, Math.ceil(name) + 4));
  const layout = sectionLayout(results, LEFT, width - 4, ['beside']);
  const height = Math.max(240, Math.min(420, (layout.top_m - layout.bottom_m) * 22));
  const y = scale(layout.top_m, layout.bottom_m, HEAD, HEAD + height);
  const full = HEAD + height + 16;
  const ground = groundLine(layout.stands, y, LEFT, width);
  const ages = (stand: Stand) => ({ stand, y, ground, shown: 'beside', bottom: HEAD + height }) as const;
  const ageBoxes = layout.stands.flatMap((stand) => ageRects(ages(stand)));
  const horizons = placedHorizons(results.correlations, layout.stands, y, ground, ageBoxes);
  const written = [...ageBoxes, ...horizons.map(({ box }) => box)];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="ruled-scroll section-scroll" tabIndex={0} aria-label="Section, drawn">
      <svg
        className="section-staff"
        width={LEFT * PX}
        height={full * PX}
        viewBox={`0 0 ${LEFT} ${full}`}
        fontFamily={TEXT_FAMILY}
        fontSize={7}
        aria-hidden="true"
      >
        <InkContext value={INKS[theme]}>
          <UprightStaff
            x={STAFF_X}
            scale={y}
            low={layout.bottom_m}
            high={layout.top_m}
            sign
            {...staffStep(y.k, 12, 10)}
          />
        </InkContext>
      </svg>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing */}
      <svg
        className="section-drawing"
        width={(width - LEFT) * PX}
        height={full * PX}
        viewBox={`${LEFT} 0 ${width - LEFT} ${full}`}
        fontFamily={TEXT_FAMILY}
        fontSize={7}
        role="group"
        aria-label={`Section through ${layout.stands.length} holes`}
        onKeyDown={(event) => {
          if (event.key === 'Escape') onEscape();
        }}
      >
        <InkContext value={INKS[theme]}>
          <SeaLevel y={y} right={width} />
          {layout.stands.map((stand, i) => (
            <g key={stand.hole.row_id}>
              <SectionLog stand={stand} y={y} number={i + 1} limit={layout.stands[i + 1]?.x ?? width} />
              <Ages {...ages(stand)} />
            </g>
          ))}
          {layout.stands.map((stand, i) => {
            const room = (layout.stands[i + 1]?.x ?? width) - stand.x - 2;
            return (
              <g key={stand.hole.row_id}>
                <HoleHead
                  stand={stand}
                  y={y(stand.ground_m) - 5}
                  room={room}
                  words={nameWords(results, stand)}
                />
                <Pad
                  name={`Describe hole ${stand.hole.hole}`}
                  role="link"
                  x={stand.x - 3}
                  y={y(stand.ground_m) - TOUCH - 1}
                  width={Math.max(TOUCH, Math.min(room, textWidth(stand.hole.hole, { weight: 600 }) + 3))}
                  height={TOUCH}
                  onPress={() => onHole(stand.hole.hole)}
                />
              </g>
            );
          })}
          <GroundLine ground={ground} />
          {ties.map((tie) => (
            <TieLine
              key={tie.row.row_id}
              tie={tie}
              stands={layout.stands}
              y={y}
              written={written}
              isChosen={tie.row.row_id === chosen}
              onChoose={onChoose}
            />
          ))}
          <ProposedLines
            proposed={proposed}
            stands={layout.stands}
            y={y}
            written={written}
            chosen={chosen}
            touch={TOUCH}
            onChoose={onChoose}
          />
          <HorizonNames placed={horizons} />
          {layout.stands.map((stand) => (
            <Bases key={stand.hole.row_id} stand={stand} y={y} picked={picked} onPick={onPick} />
          ))}
          {layout.missing.length === 0 ? null : (
            <Text x={LEFT} y={full - 3} voice="ink2" size={SIZE.small}>
              Not drawn: {layout.missing.map((m) => `${m.hole} (${m.why})`).join(', ')}
            </Text>
          )}
        </InkContext>
      </svg>
    </section>
  );
}

function SeaLevel({ y, right }: { y: Scale; right: number }) {
  const ink = useInk();
  return (
    <path
      d={`M${LEFT} ${y(0)}H${right}`}
      stroke={ink.sea}
      strokeWidth={LINE.edge}
      strokeDasharray="3.5 2"
      fill="none"
    />
  );
}

/** The base of every unit, to be picked. */
function Bases({
  stand,
  y,
  picked,
  onPick,
}: {
  stand: Stand;
  y: Scale;
  picked: Place | null;
  onPick: (place: Place) => void;
}) {
  const ink = useInk();
  const { hole } = stand;
  return (
    <g>
      {hole.units
        .filter((unit) => unit.unit !== '')
        .map((unit, i) => {
          const at = y(stand.ground_m - unit.depth_bottom_m.value);
          const place = { hole: hole.hole, row_id: unit.row_id, label: unit.unit };
          const isPicked = picked !== null && isSame(picked, place);
          const width = unitWidth(sedimentOfUnit(unit).grain, stand.width);
          // As large as a finger, as far as the bases above and below leave it.
          const [above, below] = [hole.units[i - 1], hole.units[i + 1]].map((other) =>
            other === undefined
              ? TOUCH / 2
              : Math.min(TOUCH, Math.abs(y(stand.ground_m - other.depth_bottom_m.value) - at)) / 2,
          );
          return (
            <g key={unit.row_id}>
              {isPicked ? (
                <path d={`M${stand.x - 4} ${at}H${stand.x + width + 4}`} stroke={ink.ink} strokeWidth={2} />
              ) : null}
              <Pad
                name={`Base of ${hole.hole} unit ${unit.unit}, ${sedimentOfUnit(unit).name}`}
                isPressed={isPicked}
                x={stand.x - 3}
                y={at - Math.max(2, above!)}
                width={Math.max(TOUCH, stand.width + 6)}
                height={Math.max(2, above!) + Math.max(2, below!)}
                onPress={() => onPick(place)}
              />
            </g>
          );
        })}
    </g>
  );
}

function TieLine({
  tie,
  stands,
  y,
  written,
  isChosen,
  onChoose,
}: {
  tie: Tied;
  stands: readonly Stand[];
  y: Scale;
  written: readonly Rect[];
  isChosen: boolean;
  onChoose: (row_id: string) => void;
}) {
  const ink = useInk();
  const { a, b } = tie;
  if (a.row_id === null || b.row_id === null || !tie.isAccepted) return null;
  const ends = { hole_a: a.hole, unit_a_row_id: a.row_id, hole_b: b.hole, unit_b_row_id: b.row_id };
  const parts = tieLine(ends, stands, y, written);
  if (parts === null) return null;
  const d = parts.map(polyline).join('');
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the table below does the same by keyboard
    <g className="choosable" onClick={() => onChoose(tie.row.row_id)}>
      <path d={d} stroke={ink.paper} strokeOpacity={0} strokeWidth={8} fill="none" />
      <path
        d={d}
        fill="none"
        stroke={ink.ink2}
        strokeWidth={isChosen ? LINE.bold * 1.6 : LINE.edge}
        strokeLinecap="round"
        strokeDasharray={tieDashes(tie.confidence)}
      />
    </g>
  );
}
