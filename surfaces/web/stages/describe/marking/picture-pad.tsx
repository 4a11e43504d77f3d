/**
 * The picture with its two marks and the core they cut out, at any size. Words and lines have a lining of paper: the
 * picture under them may be of any colour.
 */
import { type PicturePoint, type Strip, stripCorners, stripPlace } from '@stillstand/output/photographs';
import { useId, useRef } from 'react';
import type { Picture } from '../pictures.ts';
import { Ladder } from './ladder.tsx';
import { Loupe } from './loupe.tsx';
import { MarkHandle } from './mark-handle.tsx';
import type { MarkIndex, Marking } from './marking.ts';
import { SideHandle, sideSpot } from './side-handle.tsx';
import { SIDES, type Side } from './sides.ts';
import { type Grip, usePadHand } from './use-pad-hand.ts';
import { onPicture, onScreen, type Pad, type Spot, type View } from './view.ts';

export function PicturePad({
  picture,
  marking,
  strip,
  view,
  pad,
  chosen,
  onTap,
  onMark,
  onSide,
  onChoose,
  onZoom,
}: {
  picture: Picture;
  marking: Marking;
  strip: Strip | null;
  view: View;
  pad: Pad;
  chosen: MarkIndex | null;
  onTap: (at: PicturePoint) => void;
  onMark: (index: MarkIndex, at: PicturePoint, how: 'held' | 'key') => void;
  onSide: (side: Side, across_m: number) => void;
  onChoose: (index: MarkIndex) => void;
  onZoom: (by: number, from: Spot, to: Spot) => void;
}) {
  const svg = useRef<SVGSVGElement>(null);
  const clip = useId();
  const place = strip === null ? null : stripPlace(strip.mark_1, strip.mark_2);
  const marks = marking.marks.flatMap(({ at }, i) =>
    at === null ? [] : [{ index: i as MarkIndex, at, spot: onScreen(view, at) }],
  );
  const sides =
    strip === null || place === null
      ? []
      : SIDES.map((side) => ({ side, spot: sideSpot(view, pad, place, strip, side) }));
  const hand = usePadHand(svg, {
    grips: [
      ...marks.map(({ index, spot }) => ({ grip: { kind: 'mark', index } satisfies Grip, at: spot })),
      ...sides.map(({ side, spot }) => ({ grip: { kind: 'side', side } satisfies Grip, at: spot.grip })),
    ],
    onTap: (spot) => onTap(onPicture(view, spot)),
    onZoom,
    onDrag: (grip, to) => {
      if (grip.kind === 'mark') {
        onChoose(grip.index);
        onMark(grip.index, onPicture(view, to), 'held');
      } else if (place !== null) {
        // The grip is drawn outside the core.
        const spot = sides.find(({ side }) => side === grip.side)!.spot;
        const edge = { x: to.x + spot.edge.x - spot.grip.x, y: to.y + spot.edge.y - spot.grip.y };
        onSide(grip.side, place.toCore(onPicture(view, edge)).across_m);
      }
    },
  });
  const { held, ...events } = hand;
  const heldSpot = marks.find(({ index }) => index === held)?.spot ?? null;
  const image = (
    <image
      href={picture.url}
      width={picture.width_px}
      height={picture.height_px}
      preserveAspectRatio="none"
    />
  );
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing
    <svg
      ref={svg}
      className="picture-pad"
      width={pad.width}
      height={pad.height}
      role="group"
      aria-label="The picture, with its marks"
      {...events}
    >
      <g transform={`scale(${view.k}) translate(${-view.x_px} ${-view.y_px})`}>{image}</g>
      {strip === null || place === null ? null : (
        <>
          <Outline view={view} strip={strip} />
          <Ladder view={view} place={place} strip={strip} />
          {sides.map(({ side, spot }) => (
            <SideHandle
              key={side}
              {...{ side, spot, place, strip }}
              onMove={(across_m) => onSide(side, across_m)}
            />
          ))}
        </>
      )}
      {marks.map(({ index, at, spot }) => (
        <MarkHandle
          key={index}
          index={index}
          at={at}
          spot={spot}
          depth={marking.marks[index].depth}
          isAtRight={spot.x > pad.width - 120}
          isChosen={chosen === index}
          onFocus={() => onChoose(index)}
          onMove={(x, y) => onMark(index, { x_px: at.x_px + x, y_px: at.y_px + y }, 'key')}
        />
      ))}
      {heldSpot === null ? null : (
        <Loupe id={clip} view={view} pad={pad} at={heldSpot}>
          {image}
        </Loupe>
      )}
    </svg>
  );
}

/** The core as it is cut out; its top is the heavier end. */
function Outline({ view, strip }: { view: View; strip: Strip }) {
  const corners = stripCorners(strip)?.map((corner) => onScreen(view, corner));
  if (corners === undefined) return null;
  const words = ({ x, y }: Spot): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
  const [a, b, c, d] = corners.map(words);
  const around = `M${a}L${b}L${c}L${d}Z`;
  return (
    <g fill="none" strokeLinejoin="round">
      <path className="lining" d={around} />
      <path className="line" d={around} />
      <path className="line top-end" d={`M${a}L${b}`} />
    </g>
  );
}
