/** The section: units between its holes, contacts to be chosen and edited, and the base of every unit to be picked. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
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
  ageRects,
  HoleHead,
  nameWords,
  SectionInside,
  type Stand,
  scaleAlong,
  sectionInside,
  sectionLayout,
  tieDashes,
  tieLine,
} from '@stillstand/output/figures';
import { memo, useMemo } from 'react';
import { Pad } from './drawing/pad.tsx';
import type { Proposed } from './proposed.ts';
import { ProposedLines } from './proposed-lines.tsx';
import type { EditableContact } from './section/contacts.ts';
import { type Grip, Handles, previewed } from './section/handles.tsx';
import { isSame, type Place, type Tied } from './tie.ts';

/** Screen pixels a point: its smallest labels, 6 pt in print, are the 13 px of the screen's figures. */
const PX = 13 / SIZE.small;
/** Room of the staff and its figures, which stay in sight while the holes are moved sideways. */
const LEFT = 36;
const STAFF_X = 25;
const HEAD = 30;
/** The least target, 48 px, in points. */
const TOUCH = 48 / PX;

/** Left of the first hole, for what is drawn of its units there, points. */
const BEFORE = 16;

/** What is being moved of the chosen contact, before it is computed. */
export interface Draft {
  /** Lift now and as it is drawn, m; where it ends, share of the way, null where it does not end. */
  lift_m: number;
  drawn_lift_m: number;
  end: number | null;
}

// Patterns of a whole section: not drawn again while a hand moves one line of it.
const Inside = memo(SectionInside);
const NO_NAMES: readonly Rect[] = [];

export function SectionDrawing({
  results,
  section,
  ties,
  proposed,
  picked,
  chosen,
  contacts,
  contact,
  draft,
  width: pixels,
  theme,
  isReadOnly,
  onPick,
  onChoose,
  onContact,
  onGrip,
  onHole,
  onEscape,
}: {
  results: Results;
  section: SectionResult | null;
  ties: readonly Tied[];
  proposed: readonly Proposed[];
  picked: Place | null;
  chosen: string | null;
  contacts: readonly EditableContact[];
  /** The chosen one. */
  contact: EditableContact | null;
  draft: Draft;
  width: number;
  theme: 'day' | 'night';
  isReadOnly: boolean;
  onPick: (place: Place) => void;
  onChoose: (row_id: string) => void;
  onContact: (id: string) => void;
  onGrip: (grip: Grip, how: 'held' | 'let go' | 'key') => void;
  onHole: (hole: string) => void;
  onEscape: () => void;
}) {
  // Of many holes, and on a phone, the section is wider than the screen and is pushed aside: each name is whole.
  const name = Math.max(...results.holes.map(({ hole }) => textWidth(hole, { weight: 600 })));
  const count = section?.holes.length ?? results.holes.length;
  const width = Math.max(pixels / PX, 84 + count * Math.max(46, Math.ceil(name) + 4));
  const { layout, inside, y, full } = useMemo(() => {
    const made = sectionLayout(results, section, LEFT + BEFORE, width - 4, ['beside']);
    const height = Math.max(240, Math.min(420, (made.top_m - made.bottom_m) * 22));
    const up = scale(made.top_m, made.bottom_m, HEAD, HEAD + height);
    return {
      layout: made,
      y: up,
      full: HEAD + height + 26,
      inside: sectionInside(results, made, up, { left: LEFT + BEFORE, right: width, bottom: HEAD + height }),
    };
  }, [results, section, width]);
  const { ground, bottom, paper } = inside;
  const written = layout.stands.flatMap((stand) => ageRects({ stand, y, ground, shown: 'beside', bottom }));
  // A correlation of this moment is a line from base to base until the units between are computed.
  const drawn = new Set(inside.contacts.flatMap(({ contact: { tie } }) => tie ?? []));
  const fresh = ties.filter(({ row }) => !drawn.has(row.row_id));
  const chosenLine = inside.contacts.find((each) => each.contact === contact?.contact)?.line ?? null;
  const way = contact === null || paper === null ? 1 : paper.x(contact.to_m) - paper.x(contact.from_m);
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
          <Inside results={results} inside={inside} names={NO_NAMES} left={LEFT} id="section" />
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
          <ContactLines contacts={contacts} drawn={inside.contacts} onContact={onContact} />
          {fresh.map((tie) => (
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
          {layout.stands.map((stand) => (
            <Bases key={stand.hole.row_id} stand={stand} y={y} picked={picked} onPick={onPick} />
          ))}
          {contact === null || chosenLine === null ? null : (
            <Handles
              each={contact}
              line={previewed(chosenLine, contact, {
                lift: (draft.lift_m - draft.drawn_lift_m) * Math.abs(y.k),
                end: draft.end,
                way,
              })}
              lift_m={draft.lift_m}
              end={draft.end}
              per_m={Math.abs(y.k)}
              way={way}
              touch={TOUCH}
              px={PX}
              isReadOnly={isReadOnly}
              onGrip={onGrip}
            />
          )}
          <Text x={width - 4} y={full - 3} anchor="end" voice="ink2">
            {scaleAlong(layout, y)}
          </Text>
          {layout.missing.length === 0 ? null : (
            <Text x={LEFT} y={full - 11} voice="ink2" size={SIZE.small}>
              Not drawn: {layout.missing.map((m) => `${m.hole} (${m.why})`).join(', ')}
            </Text>
          )}
        </InkContext>
      </svg>
    </section>
  );
}

/** Every contact, to be chosen by pointer; the list next to the section does the same by keyboard. */
const ContactLines = memo(function ContactLines({
  contacts,
  drawn,
  onContact,
}: {
  contacts: readonly EditableContact[];
  drawn: ReturnType<typeof sectionInside>['contacts'];
  onContact: (id: string) => void;
}) {
  const ink = useInk();
  const ids = new Map(contacts.map(({ id, contact }) => [contact, id]));
  return drawn.map(({ contact, line }) => {
    const id = ids.get(contact);
    return id === undefined ? null : (
      // biome-ignore lint/a11y/noStaticElementInteractions: the list of contacts does the same by keyboard
      <path
        key={id}
        className="choosable"
        d={polyline(line)}
        stroke={ink.paper}
        strokeOpacity={0}
        strokeWidth={8}
        fill="none"
        onClick={() => onContact(id)}
      />
    );
  });
});

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
          // As large as a finger, as far as the bases above and below leave it.
          const [above, below] = [hole.units[i - 1], hole.units[i + 1]].map((other) =>
            other === undefined
              ? TOUCH / 2
              : Math.min(TOUCH, Math.abs(y(stand.ground_m - other.depth_bottom_m.value) - at)) / 2,
          );
          return (
            <g key={unit.row_id}>
              {isPicked ? (
                <path
                  d={`M${stand.x - 4} ${at}H${stand.x + stand.width + 4}`}
                  stroke={ink.ink}
                  strokeWidth={2}
                />
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
