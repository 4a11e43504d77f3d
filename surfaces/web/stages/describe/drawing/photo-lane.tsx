/** Photographs beside the core they were taken of, on the same staff. A picture that lies across is turned: left is up. */
import { LINE, Text, useInk } from '@stillstand/output/drawing';
import type { PlacedPhoto } from '../photos.ts';
import { coreY, type Frame } from './lanes.ts';
import { Pad } from './pad.tsx';

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
          <g key={photo.row.row_id}>
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
            <path
              d={`M${x1} ${top}H${x2}V${top + height}H${x1}Z`}
              fill="none"
              stroke={ink.ink}
              strokeWidth={photo.row.row_id === chosen ? LINE.bold : LINE.fine}
            />
            <Pad
              name={`Photograph of ${photo.core.name}`}
              isPressed={photo.row.row_id === chosen}
              x={x1}
              y={top}
              width={width}
              height={height}
              onPress={() => onChoose(photo.row.row_id)}
            />
          </g>
        );
      })}
    </g>
  );
}
