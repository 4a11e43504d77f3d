/** The core cut out of its picture, straightened, piece by piece where it lies. What the picture does not show stays blank. */
import { matrixText, type Strip as StripOfPicture, sliceTransform } from '@stillstand/output/photographs';
import { useId } from 'react';
import type { Picture } from '../pictures.ts';
import { straightSlices } from './slices.ts';

/** Points by which a piece runs on under the next, so that no seam shows. */
const OVERLAP_PT = 0.6;

export function Strip({
  strip,
  picture,
  x1,
  x2,
  y,
}: {
  strip: StripOfPicture;
  picture: Picture;
  x1: number;
  x2: number;
  /** Where a length along the core is drawn. */
  y: (at_m: number) => number;
}) {
  const id = useId();
  const slices = straightSlices(y, strip.top_m, strip.bottom_m);
  return (
    <g>
      {slices.map((slice, i) => {
        const box = { left: x1, right: x2, top: slice.y1, bottom: slice.y2 };
        const transform = sliceTransform(strip, slice, box);
        if (transform === null) return null;
        const clip = `${id}-${i}`;
        const under = slices[i + 1]?.y1 === slice.y2 ? OVERLAP_PT : 0;
        return (
          <g key={slice.from_m}>
            <clipPath id={clip}>
              <rect x={x1} y={slice.y1} width={x2 - x1} height={slice.y2 - slice.y1 + under} />
            </clipPath>
            <g clipPath={`url(#${clip})`}>
              <image
                href={picture.url}
                width={picture.width_px}
                height={picture.height_px}
                preserveAspectRatio="none"
                transform={matrixText(transform)}
              />
            </g>
          </g>
        );
      })}
    </g>
  );
}
