/** All holes hung at their elevation; two contacts picked one after the other are tied. */
import type { Results } from '@stillstand/campaign/results';
import {
  HoleHead,
  HungColumn,
  INKS,
  InkContext,
  LINE,
  type Scale,
  SIZE,
  type Stand,
  scale,
  sectionLayout,
  sedimentOfUnit,
  staffStep,
  TEXT_FAMILY,
  Text,
  UprightStaff,
  unitWidth,
  useInk,
} from '@stillstand/output/figures';
import { useState } from 'react';
import { Button, Mark, Table, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { type DocRow, useStore } from '../../store/index.ts';
import { PX } from './drawing/lanes.ts';
import { Pad } from './drawing/pad.tsx';

interface Place {
  hole: string;
  contact: string;
}

interface Tied {
  row: DocRow;
  a: Place;
  b: Place;
  confidence: string;
}

const CONFIDENCE = ['sure', 'likely', 'possible'] as const;
const DASHES: Readonly<Record<string, string | undefined>> = { likely: '4 2.4', possible: '0.01 2.2' };
const LEFT = 30;
const HEAD = 30;

export function SectionPage({ results, onHole }: { results: Results; onHole: (hole: string) => void }) {
  const store = useStore();
  const { theme } = useTheme();
  const [box, width] = useWidth(0);
  const [picked, setPicked] = useState<Place | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const ties = store.rows('correlations').map(
    (row): Tied => ({
      row,
      a: { hole: row.cells['hole_a']?.trim() ?? '', contact: row.cells['contact_a']?.trim() ?? '' },
      b: { hole: row.cells['hole_b']?.trim() ?? '', contact: row.cells['contact_b']?.trim() ?? '' },
      confidence: row.cells['confidence']?.trim() || 'likely',
    }),
  );
  const pick = (place: Place): void => {
    if (store.readOnly) return;
    if (picked === null || picked.hole === place.hole) {
      setPicked(picked !== null && picked.contact === place.contact ? null : place);
      setSaid(`Base of ${place.hole} unit ${place.contact} picked; now pick a contact in another hole.`);
      return;
    }
    const before = ties.find((tie) => isBetween(tie, picked, place));
    setPicked(null);
    if (before !== undefined) {
      setChosen(before.row.row_id);
      setSaid('These two are tied already.');
      return;
    }
    setChosen(
      store.addRow('correlations', {
        hole_a: picked.hole,
        contact_a: picked.contact,
        hole_b: place.hole,
        contact_b: place.contact,
        confidence: 'likely',
      }),
    );
    setSaid(
      `Tied: base of ${picked.hole} unit ${picked.contact} and of ${place.hole} unit ${place.contact}.`,
    );
  };
  const remove = (tie: Tied): void => {
    store.removeRow('correlations', tie.row.row_id);
    setSaid('The tie is taken out. Undo brings it back.');
  };
  return (
    <div className="describe-section">
      <p className="drawing-notes">
        Pick the base of a unit, then one in another hole: they are tied. Dashed, zero: {results.datum.label}.
      </p>
      <div ref={box} className="drawing-place">
        {width === 0 ? null : (
          <SectionDrawing
            results={results}
            ties={ties}
            picked={picked}
            chosen={chosen}
            width={width}
            theme={theme}
            onPick={pick}
            onChoose={setChosen}
            onHole={onHole}
            onEscape={() => setPicked(null)}
          />
        )}
      </div>
      <p className="said" role="status">
        {said}
      </p>
      <Table
        caption="Ties between holes"
        columns={[
          { name: 'base of' },
          { name: 'and of' },
          { name: 'confidence' },
          { name: <span className="unseen">take out</span> },
        ]}
      >
        {ties.length === 0 ? (
          <tr>
            <td colSpan={4} className="quiet">
              None yet.
            </td>
          </tr>
        ) : null}
        {ties.map((tie) => (
          <tr key={tie.row.row_id} className={tie.row.row_id === chosen ? 'chosen' : undefined}>
            <td>
              {tie.a.hole}, unit {tie.a.contact}{' '}
              {isKnown(results, tie.a) ? null : <Mark name="close" size={16} label="not found" />}
            </td>
            <td>
              {tie.b.hole}, unit {tie.b.contact}{' '}
              {isKnown(results, tie.b) ? null : <Mark name="close" size={16} label="not found" />}
            </td>
            <td>
              <select
                aria-label={`Confidence of the tie ${tie.a.hole} ${tie.a.contact} to ${tie.b.hole} ${tie.b.contact}`}
                value={tie.confidence}
                disabled={store.readOnly}
                onChange={(event) =>
                  store.editRow('correlations', tie.row.row_id, { confidence: event.target.value })
                }
              >
                {[...new Set([...CONFIDENCE, tie.confidence])].map((word) => (
                  <option key={word}>{word}</option>
                ))}
              </select>
            </td>
            <td>
              <Button
                kind="bare"
                mark="remove"
                disabled={store.readOnly}
                aria-label={`Take out the tie ${tie.a.hole} ${tie.a.contact} to ${tie.b.hole} ${tie.b.contact}`}
                onClick={() => remove(tie)}
              />
            </td>
          </tr>
        ))}
      </Table>
    </div>
  );
}

const isSame = (a: Place, b: Place): boolean => a.hole === b.hole && a.contact === b.contact;
const isBetween = (tie: Tied, p: Place, q: Place): boolean =>
  (isSame(tie.a, p) && isSame(tie.b, q)) || (isSame(tie.a, q) && isSame(tie.b, p));
const isKnown = (results: Results, place: Place): boolean =>
  results.holes.some((h) => h.hole === place.hole && h.units.some((u) => u.unit === place.contact));

function SectionDrawing({
  results,
  ties,
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
  picked: Place | null;
  chosen: string | null;
  width: number;
  theme: 'day' | 'night';
  onPick: (place: Place) => void;
  onChoose: (row_id: string) => void;
  onHole: (hole: string) => void;
  onEscape: () => void;
}) {
  // On a phone the section is wider than the screen and is pushed aside with a finger.
  const width = Math.max(pixels / PX, 90 + results.holes.length * 50);
  const layout = sectionLayout(results, LEFT, width - 4);
  const height = Math.max(240, Math.min(420, (layout.top_m - layout.bottom_m) * 22));
  const y = scale(layout.top_m, layout.bottom_m, HEAD, HEAD + height);
  const full = HEAD + height + 16;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="ruled-scroll" tabIndex={0} aria-label="Section, drawn">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing */}
      <svg
        className="section-drawing"
        width={width * PX}
        height={full * PX}
        viewBox={`0 0 ${width} ${full}`}
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
            <HungColumn key={stand.hole.row_id} stand={stand} y={y} number={i + 1} limit={width} />
          ))}
          {layout.stands.map((stand, i) => (
            <g key={stand.hole.row_id}>
              <HoleHead
                stand={stand}
                y={y(stand.ground_m) - 5}
                room={(layout.stands[i + 1]?.x ?? width) - stand.x - 2}
                replacedBy={results.holes.find((h) => h.replaces === stand.hole.hole)?.hole ?? null}
              />
              <Pad
                name={`Describe hole ${stand.hole.hole}`}
                role="link"
                x={stand.x - 3}
                y={y(stand.ground_m) - 23}
                width={34}
                height={21}
                onPress={() => onHole(stand.hole.hole)}
              />
            </g>
          ))}
          <GroundLine stands={layout.stands} y={y} />
          <UprightStaff
            x={16}
            scale={y}
            low={layout.bottom_m}
            high={layout.top_m}
            sign
            {...staffStep(y.k, 12, 10)}
          />
          {ties.map((tie) => (
            <TieLine
              key={tie.row.row_id}
              tie={tie}
              stands={layout.stands}
              y={y}
              isChosen={tie.row.row_id === chosen}
              onChoose={onChoose}
            />
          ))}
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
      d={`M22 ${y(0)}H${right}`}
      stroke={ink.sea}
      strokeWidth={LINE.edge}
      strokeDasharray="3.5 2"
      fill="none"
    />
  );
}

function GroundLine({ stands, y }: { stands: readonly Stand[]; y: Scale }) {
  const ink = useInk();
  const d = stands
    .map(
      (s, i) => `${i === 0 ? 'M' : 'L'}${s.x - 2} ${y(s.ground_m)}L${s.x + s.width * 0.8} ${y(s.ground_m)}`,
    )
    .join('');
  return <path d={d} stroke={ink.ink} strokeWidth={LINE.page} strokeLinejoin="round" fill="none" />;
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
          const place = { hole: hole.hole, contact: unit.unit };
          const isPicked = picked !== null && isSame(picked, place);
          const width = unitWidth(sedimentOfUnit(unit).grain, stand.width);
          const next = hole.units[i + 1];
          const room =
            next === undefined ? 12 : Math.max(3, y(stand.ground_m - next.depth_bottom_m.value) - at);
          return (
            <g key={unit.row_id}>
              {isPicked ? (
                <path d={`M${stand.x - 4} ${at}H${stand.x + width + 4}`} stroke={ink.ink} strokeWidth={2} />
              ) : null}
              <Pad
                name={`Base of ${hole.hole} unit ${unit.unit}, ${sedimentOfUnit(unit).name}`}
                isPressed={isPicked}
                x={stand.x - 3}
                y={at - 3}
                width={stand.width + 6}
                height={3 + Math.min(4, room / 2)}
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
  isChosen,
  onChoose,
}: {
  tie: Tied;
  stands: readonly Stand[];
  y: Scale;
  isChosen: boolean;
  onChoose: (row_id: string) => void;
}) {
  const ink = useInk();
  const a = baseAt(stands, tie.a, y);
  const b = baseAt(stands, tie.b, y);
  if (a === null || b === null) return null;
  const [l, r] = a.stand.x <= b.stand.x ? [a, b] : [b, a];
  const d = `M${l.stand.x + l.width} ${l.y}L${r.stand.x} ${r.y}`;
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
        strokeDasharray={DASHES[tie.confidence]}
      />
    </g>
  );
}

function baseAt(stands: readonly Stand[], place: Place, y: Scale) {
  const stand = stands.find((s) => s.hole.hole === place.hole);
  const unit = stand?.hole.units.find((u) => u.unit === place.contact);
  if (stand === undefined || unit === undefined) return null;
  return {
    stand,
    y: y(stand.ground_m - unit.depth_bottom_m.value),
    width: unitWidth(sedimentOfUnit(unit).grain, stand.width),
  };
}
