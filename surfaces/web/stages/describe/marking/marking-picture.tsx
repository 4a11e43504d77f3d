/** The picture that is being marked, its zoom, and the buttons that place what a finger or the keyboard cannot tap. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import type { PicturePoint, Strip } from '@stillstand/output/photographs';
import { useState } from 'react';
import { Button } from '../../../parts/index.ts';
import type { Picture } from '../pictures.ts';
import { markId } from './mark-handle.tsx';
import { type MarkIndex, type Marking, stripOf, withMark } from './marking.ts';
import { PicturePad } from './picture-pad.tsx';
import { withSide } from './sides.ts';
import { usePadSize } from './use-pad-size.ts';
import { onPicture, onScreen, type View, viewOf, wholeView, zoomedView } from './view.ts';

const ZOOM = 1.6;

export function MarkingPicture({
  picture,
  marking,
  strip,
  photo,
  options,
  onChange,
}: {
  picture: Picture;
  marking: Marking;
  strip: Strip | null;
  /** What of the core the strip is. */
  photo: { top_m: number; bottom_m: number };
  options: LengthOptions;
  onChange: (by: (before: Marking) => Marking) => void;
}) {
  const [place, pad] = usePadSize();
  /** Null: the whole picture, whatever the size of the pad. */
  const [own, setOwn] = useState<View | null>(null);
  const [chosen, setChosen] = useState<MarkIndex | null>(null);
  const view = own ?? wholeView(picture, pad);
  const next = ([0, 1] as const).find((index) => marking.marks[index].at === null) ?? null;
  const middle = { x: pad.width / 2, y: pad.height / 2 };
  const put = (index: MarkIndex, { x_px, y_px }: PicturePoint, how: 'held' | 'key'): void => {
    const within = (at: number, most: number): number => Math.round(Math.min(most, Math.max(0, at)));
    const at = { x_px: within(x_px, picture.width_px), y_px: within(y_px, picture.height_px) };
    onChange((before) => withMark(before, index, { at }));
    // Arrow keys can take it out of sight; under a finger the picture lies still.
    if (own !== null && how === 'key') setOwn(viewOf(own, at, pad));
  };
  const placeMark = (index: MarkIndex, at: PicturePoint): void => {
    put(index, at, 'held');
    setChosen(index);
  };
  const zoom = (by: number): void => {
    const at = chosen === null ? null : marking.marks[chosen].at;
    const about = at === null ? middle : onScreen(view, at);
    setOwn(zoomedView(view, by, about, at === null ? about : middle, picture, pad));
  };
  return (
    <div className="marking-picture">
      <div ref={place} className="pad-place">
        {pad.width === 0 ? null : (
          <PicturePad
            {...{ picture, marking, strip, view, pad, chosen }}
            onTap={(at) => {
              if (next !== null) placeMark(next, at);
            }}
            onMark={put}
            onSide={(side, across_m) =>
              onChange((before) => {
                const now = stripOf(before, photo, options);
                return now === null ? before : withSide(before, now, side, across_m, options);
              })
            }
            onChoose={setChosen}
            onZoom={(by, from, to) =>
              setOwn((before) => zoomedView(before ?? wholeView(picture, pad), by, from, to, picture, pad))
            }
          />
        )}
      </div>
      <div className="pad-tools">
        <Button mark="plus" aria-label="Zoom in" onClick={() => zoom(ZOOM)} />
        <Button mark="minus" aria-label="Zoom out" onClick={() => zoom(1 / ZOOM)} />
        <Button onClick={() => setOwn(null)}>Show all</Button>
        {next === null ? null : (
          <Button
            onClick={() => {
              placeMark(next, onPicture(view, middle));
              // Once it is drawn.
              requestAnimationFrame(() => document.getElementById(markId(next))?.focus());
            }}
          >
            Place mark {next + 1} in the middle
          </Button>
        )}
      </div>
    </div>
  );
}
