/**
 * Photographs in a lane of their own: along the core where one core is in view, else where they lie in the ground. With a
 * scale the core is cut out of the picture; without, the picture stands uncut, and one that lies across is turned: left is up.
 */
import { LINE, Text, useInk } from '@stillstand/output/drawing';
import type { PlacedPhoto } from '../photos.ts';
import { isPicture } from '../pictures.ts';
import { type Frame, photoY } from './lanes.ts';
import { Pad } from './pad.tsx';
import { Strip } from './strip.tsx';

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
  return (
    <g>
      {photos.map((photo) => {
        const { core, picture, row, strip } = photo;
        const y = (at_m: number): number => photoY(frame, core, at_m);
        const top = y(photo.top_m);
        const height = Math.max(2, y(photo.bottom_m) - top);
        const width = x2 - x1;
        return (
          <g key={row.row_id}>
            {!isPicture(picture) ? (
              <Text x={x1 + 2} y={top + 8} voice="ink2">
                {picture === 'reading' ? '…' : '?'}
              </Text>
            ) : strip !== null ? (
              <Strip strip={strip} picture={picture} x1={x1} x2={x2} y={y} />
            ) : picture.width_px > picture.height_px ? (
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
              strokeWidth={row.row_id === chosen ? LINE.bold : LINE.fine}
            />
            <Pad
              name={`Photograph of ${core.name}`}
              isPressed={row.row_id === chosen}
              x={x1}
              y={top}
              width={width}
              height={height}
              onPress={() => onChoose(row.row_id)}
            />
          </g>
        );
      })}
    </g>
  );
}
