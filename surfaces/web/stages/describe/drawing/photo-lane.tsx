/** Photographs beside the core they were taken of, on the same staff. A picture that lies across is turned: left is up. */
import { LINE, Text, useInk } from '@stillstand/output/figures';
import type { PlacedPhoto } from '../photos.ts';
import { coreY, type Frame } from './lanes.ts';

export function PhotoLane({
  frame,
  photos,
  chosen,
  onChoose,
}: {
  frame: Frame;
  photos: readonly PlacedPhoto[];
  chosen: string | null;
  onChoose: (row_id: string) => void;
}) {
  const ink = useInk();
  const lane = frame.lanes.photo;
  if (lane === null) return null;
  const [x1, x2] = lane;
  const y = (photo: PlacedPhoto, at: number): number =>
    coreY(frame, photo.core, at) ?? frame.depth(photo.core.depthAt(at));
  return (
    <g>
      {photos.map((photo) => {
        const top = y(photo, photo.top_m);
        const height = Math.max(2, y(photo, photo.bottom_m) - top);
        const width = x2 - x1;
        const { picture } = photo;
        return (
          // biome-ignore lint/a11y/useSemanticElements: a button inside a drawing
          <g
            key={photo.row.row_id}
            role="button"
            tabIndex={0}
            aria-pressed={photo.row.row_id === chosen}
            aria-label={`Photograph of ${photo.core.name}`}
            className="choosable"
            onClick={() => onChoose(photo.row.row_id)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' && event.key !== ' ') return;
              event.preventDefault();
              onChoose(photo.row.row_id);
            }}
          >
            {picture === null ? (
              <Text x={x1 + 2} y={top + 8} voice="ink2">
                …
              </Text>
            ) : picture.isAcross ? (
              <image
                href={picture.url}
                width={height}
                height={width}
                preserveAspectRatio="xMidYMid slice"
                transform={`translate(${x2} ${top}) rotate(90)`}
              />
            ) : (
              <image
                href={picture.url}
                x={x1}
                y={top}
                width={width}
                height={height}
                preserveAspectRatio="xMidYMid slice"
              />
            )}
            <rect
              className="focus-box"
              x={x1}
              y={top}
              width={width}
              height={height}
              fill="none"
              stroke={ink.ink}
              strokeWidth={photo.row.row_id === chosen ? LINE.bold : LINE.fine}
            />
          </g>
        );
      })}
    </g>
  );
}
