import { box, INKS, LINE, r2, type Scale, Text, useInk } from '@stillstand/output/drawing';
import { STRIP_PAPER } from '@stillstand/output/photographs';
import { type Column, HEAD } from './lanes.ts';

/** Photographs of the core, cut out and stretched to in-situ depth. */
export function Strips({ column, depth }: { column: Column; depth: Scale }) {
  const ink = useInk();
  const x = column.lane.strips;
  if (x === null) return null;
  const strips = column.photographs.strips.map(({ row_id, url, from_m, to_m }) => ({
    row_id,
    url,
    top: depth(from_m),
    bottom: depth(to_m),
  }));
  return (
    <g>
      <Text x={x + STRIP_PAPER.width / 2} y={HEAD - 9} anchor="middle">
        photo
      </Text>
      {strips.map(({ row_id, url, top, bottom }) => (
        <image
          key={row_id}
          href={url}
          x={r2(x)}
          y={r2(top)}
          width={STRIP_PAPER.width}
          height={r2(bottom - top)}
          preserveAspectRatio="none"
          opacity={ink === INKS.night ? 0.5 : undefined}
        />
      ))}
      <path
        d={strips.map(({ top, bottom }) => box(x, top, x + STRIP_PAPER.width, bottom)).join('')}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
    </g>
  );
}
