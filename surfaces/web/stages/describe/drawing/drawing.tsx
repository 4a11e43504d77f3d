/**
 * One hole, or one core of it: everything on one staff, and what a hand can take hold of. Past 250 lines because pointer
 * and keys must agree on what is where.
 */

import type { Core } from '@stillstand/campaign/chain';
import type { HoleResult } from '@stillstand/campaign/results';
import { INKS, InkContext, TEXT_FAMILY, type Theme } from '@stillstand/output/drawing';
import { useRef, useState } from 'react';
import type { Contact, Description } from '../layers.ts';
import { onTape, steps, writtenLength } from '../length.ts';
import type { PlacedPhoto } from '../photos.ts';
import { PlannedLane } from '../plan-samples/planned-lane.tsx';
import type { PlacedSample } from '../samples.ts';
import { ContactHandle, handleId } from './contact-handle.tsx';
import { CoreLane } from './core-lane.tsx';
import { drawnIn } from './drawn.ts';
import { GroundLane } from './ground-lane.tsx';
import { Heads } from './heads.tsx';
import { coreY, frameFor, HEAD, lanesFor, lengthAt, PX } from './lanes.ts';
import { PhotoLane } from './photo-lane.tsx';
import { SampleLane, sampleId } from './sample-lane.tsx';
import { Ties } from './ties.tsx';
import { WordsLane } from './words-lane.tsx';
import './drawing.css';

export type Chosen =
  | { kind: 'contact'; id: string }
  | { kind: 'layer'; id: string }
  | { kind: 'sample'; id: string }
  | { kind: 'photo'; id: string }
  | null;

/** The hand holds it, has let it go, or an arrow was pressed. */
export type Moving = 'held' | 'let go' | 'key';

/** Pixels within which a press takes hold of a contact or a sample. */
const NEAR_PX = 13;

interface DrawingProps {
  hole: HoleResult;
  cores: readonly Core[];
  one: Core | null;
  bottom_m: number;
  description: Description;
  samples: readonly PlacedSample[];
  photos: readonly PlacedPhoto[];
  chosen: Chosen;
  theme: Theme;
  /** Of the place it is drawn in, pixels. */
  width: number;
  height: number;
  isReadOnly: boolean;
  onChoose: (chosen: Chosen) => void;
  onMoveContact: (contact: Contact, to_m: number, how: Moving) => void;
  onMoveSample: (sample: PlacedSample, middle_m: number, how: Moving) => void;
  onMerge: (contact: Contact) => void;
}

export function Drawing(props: DrawingProps) {
  const { hole, cores, one, description, samples, photos, chosen, theme } = props;
  const width = props.width / PX;
  const height = props.height / PX;
  const svg = useRef<SVGSVGElement>(null);
  const held = useRef<{
    kind: 'contact' | 'sample';
    id: string;
    side: 'core' | 'ground';
    off: number;
  } | null>(null);
  const [isNear, setNear] = useState(false);
  const hasCore = cores.some((core) => core.entered !== null);
  const shownPhotos = photos.filter((photo) => one === null || photo.core === one);
  const shownSamples = samples.filter((sample) => one === null || sample.core === one);
  const lanes = lanesFor(width, {
    core: hasCore && one?.entered !== null,
    photos: shownPhotos.length === 0 ? null : one === null ? 'in the ground' : 'along the core',
    seen: true,
  });
  const frame = frameFor(width, height, lanes, props.bottom_m, one);
  const drawn = drawnIn(frame, description);
  // Over the whole hole the ends of what is described in each run lie under the lines between runs.
  const handles = (
    one === null
      ? description.contacts
      : [...description.contacts, ...description.ends].filter((c) => c.core === one)
  ).sort((a, b) => a.core.depthAt(a.at_m) - b.core.depthAt(b.at_m));
  const chosenId = (kind: NonNullable<Chosen>['kind']): string | null =>
    chosen?.kind === kind ? chosen.id : null;

  const inPoints = (event: React.PointerEvent): { x: number; y: number } => {
    const box = svg.current!.getBoundingClientRect();
    return { x: (event.clientX - box.left) / PX, y: (event.clientY - box.top) / PX };
  };
  const sideAt = (x: number): 'core' | 'ground' | null => {
    if (lanes.core[1] > 0 && x >= lanes.bar[0] && x <= lanes.core[1] + 2) return 'core';
    return x >= lanes.column - 4 && x <= lanes.column + lanes.gravel + 2 ? 'ground' : null;
  };
  const yOf = (core: Core, at_m: number, side: 'core' | 'ground'): number =>
    (side === 'core' ? coreY(frame, core, at_m) : null) ?? frame.depth(core.depthAt(at_m));
  const nearest = <T,>(things: readonly T[], y: (thing: T) => number, at: number): T | null => {
    let best: T | null = null;
    let off = NEAR_PX / PX;
    for (const thing of things) {
      if (Math.abs(y(thing) - at) >= off) continue;
      off = Math.abs(y(thing) - at);
      best = thing;
    }
    return best;
  };
  const sampleY = (s: PlacedSample): number => frame.depth(s.core.depthAt((s.top_m + s.bottom_m) / 2));

  const press = (event: React.PointerEvent): void => {
    if (event.button !== 0) return;
    const { x, y } = inPoints(event);
    if (y < HEAD - 8) return;
    const hold = (
      kind: 'contact' | 'sample',
      id: string,
      side: 'core' | 'ground',
      at: number,
      element: string,
    ): void => {
      props.onChoose({ kind, id });
      document.getElementById(element)?.focus({ preventScroll: true });
      if (props.isReadOnly) return;
      held.current = { kind, id, side, off: y - at };
      svg.current!.setPointerCapture(event.pointerId);
      event.preventDefault();
    };
    if (Math.abs(x - lanes.sample) < 7) {
      const sample = nearest(shownSamples, sampleY, y);
      if (sample !== null)
        hold('sample', sample.row.row_id, 'ground', sampleY(sample), sampleId(sample.row.row_id));
      return;
    }
    const side = sideAt(x);
    if (side === null) return;
    const contact = nearest(handles, (c) => yOf(c.core, c.at_m, side), y);
    if (contact !== null) {
      hold('contact', contact.id, side, yOf(contact.core, contact.at_m, side), handleId(contact));
      return;
    }
    const layer = drawn.find((d) =>
      side === 'ground'
        ? y >= d.y1 && y <= d.y2
        : d.pieces.some((p) => p.core !== null && y >= p.core.y1 && y <= p.core.y2),
    );
    props.onChoose(layer === undefined ? null : { kind: 'layer', id: layer.layer.id });
  };
  const follow = (event: React.PointerEvent, done: boolean): void => {
    const { x, y } = inPoints(event);
    const hand = held.current;
    if (hand === null) {
      const side = sideAt(x);
      setNear(
        (side !== null && nearest(handles, (c) => yOf(c.core, c.at_m, side), y) !== null) ||
          (Math.abs(x - lanes.sample) < 7 && nearest(shownSamples, sampleY, y) !== null),
      );
      return;
    }
    if (done) held.current = null;
    if (hand.kind === 'contact') {
      const contact = handles.find((c) => c.id === hand.id);
      if (contact === undefined) return;
      const at = lengthAt(frame, contact.core, y - hand.off, hand.side);
      // On a large scale the hand is surer than a centimetre.
      const { one_m } = steps(contact.unit);
      props.onMoveContact(
        contact,
        onTape(at, frame.core.k * PX > 250 ? one_m / 2 : one_m),
        done ? 'let go' : 'held',
      );
    } else {
      const sample = shownSamples.find((s) => s.row.row_id === hand.id);
      if (sample === undefined) return;
      const at = lengthAt(frame, sample.core, y - hand.off, 'ground');
      props.onMoveSample(sample, onTape(at, steps(sample.unit).one_m / 2), done ? 'let go' : 'held');
    }
  };
  const contactKey = (event: React.KeyboardEvent, contact: Contact): void => {
    const { one_m, ten_m } = steps(contact.unit);
    const by = stepOf(event, one_m, ten_m);
    if (by !== 0) {
      event.preventDefault();
      props.onChoose({ kind: 'contact', id: contact.id });
      if (!props.isReadOnly) props.onMoveContact(contact, contact.at_m + by, 'key');
    } else if ((event.key === 'Delete' || event.key === 'Backspace') && !props.isReadOnly) {
      event.preventDefault();
      props.onMerge(contact);
    } else if (event.key === 'Escape') props.onChoose(null);
  };
  const sampleKey = (event: React.KeyboardEvent, sample: PlacedSample): void => {
    const { one_m, ten_m } = steps(sample.unit);
    const by = stepOf(event, one_m, ten_m);
    if (by !== 0) {
      event.preventDefault();
      if (!props.isReadOnly) props.onMoveSample(sample, (sample.top_m + sample.bottom_m) / 2 + by, 'key');
    } else if (event.key === 'Escape') props.onChoose(null);
  };

  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing
    <svg
      ref={svg}
      className={isNear ? 'column-drawing near' : 'column-drawing'}
      width={props.width}
      height={props.height}
      viewBox={`0 0 ${width} ${height}`}
      fontFamily={TEXT_FAMILY}
      fontSize={7}
      role="group"
      aria-label={`Hole ${hole.hole}${one === null ? '' : `, ${one.name}`}: ${drawn.length} units`}
      onPointerDown={press}
      onPointerMove={(event) => follow(event, false)}
      onPointerUp={(event) => {
        if (held.current !== null) follow(event, true);
      }}
      onPointerCancel={() => {
        held.current = null;
      }}
    >
      <InkContext value={INKS[theme]}>
        <Heads
          frame={frame}
          hasCore={lanes.core[1] > 0}
          hasSamples={shownSamples.length > 0}
          isPush={hole.runs.every((run) => run.method === 'push')}
        />
        <PhotoLane
          frame={frame}
          photos={shownPhotos}
          chosen={chosenId('photo')}
          onChoose={(id) => props.onChoose({ kind: 'photo', id })}
        />
        {lanes.core[1] > 0 ? (
          <>
            <Ties frame={frame} drawn={drawn} />
            <CoreLane
              frame={frame}
              runs={hole.runs}
              cores={cores}
              description={description}
              drawn={drawn}
              id={`d-${hole.row_id}`}
            />
          </>
        ) : null}
        <GroundLane frame={frame} hole={hole} drawn={drawn} id={`d-${hole.row_id}`} />
        {lanes.core[1] > 0 ? (
          <rect
            className="hold"
            x={lanes.bar[0]}
            y={HEAD - 8}
            width={lanes.core[1] - lanes.bar[0] + 2}
            height={frame.bottom - HEAD + 12}
          />
        ) : null}
        <rect
          className="hold"
          x={lanes.column - 4}
          y={HEAD - 8}
          width={lanes.gravel + 6}
          height={frame.bottom - HEAD + 12}
        />
        {handles.map((contact) => (
          <ContactHandle
            key={contact.id}
            frame={frame}
            contact={contact}
            isChosen={chosenId('contact') === contact.id}
            groundWords={writtenLength(contact.core.depthAt(contact.at_m), 'm')}
            onFocus={() => props.onChoose({ kind: 'contact', id: contact.id })}
            onKey={(event) => contactKey(event, contact)}
          />
        ))}
        <PlannedLane frame={frame} hole={hole.hole} />
        <SampleLane
          frame={frame}
          samples={shownSamples}
          chosen={chosenId('sample')}
          onChoose={(id) => props.onChoose({ kind: 'sample', id })}
          onKey={sampleKey}
        />
        <WordsLane
          frame={frame}
          drawn={drawn}
          chosen={chosenId('layer')}
          onChoose={(id) => props.onChoose({ kind: 'layer', id })}
        />
      </InkContext>
    </svg>
  );
}

/** Down the core is a greater length. */
function stepOf(event: React.KeyboardEvent, one_m: number, ten_m: number): number {
  const step = event.shiftKey ? ten_m : one_m;
  switch (event.key) {
    case 'ArrowUp':
      return -step;
    case 'ArrowDown':
      return step;
    case 'PageUp':
      return -ten_m;
    case 'PageDown':
      return ten_m;
    default:
      return 0;
  }
}
