/** A side of the core on the picture, taken hold of outside it, or its middle: width and offset follow. */
import type { Strip, StripPlace } from '@stillstand/output/photographs';
import { acrossOf, type Side } from './sides.ts';
import { onScreen, type Pad, type Spot, type View } from './view.ts';

/** Screen pixels from the side to the middle of its grip. */
const OUT = 26;
const OUTWARD: Readonly<Record<Side, number>> = { left: -OUT, middle: 0, right: OUT };
const NAMES: Readonly<Record<Side, string>> = {
  left: 'Left side of the core',
  middle: 'Middle of the core',
  right: 'Right side of the core',
};

export interface SideSpot {
  /** Middle of the grip, and the place on the side that it moves. */
  grip: Spot;
  edge: Spot;
}

/** Half way along what of the side is in view; the grip of the middle, which lies on the core, further up. */
export function sideSpot(view: View, pad: Pad, place: StripPlace, strip: Strip, side: Side): SideSpot {
  const across_m = acrossOf(strip, side);
  const at = (along_m: number): Spot => onScreen(view, place.toPicture({ along_m, across_m }));
  const inView = (spot: Spot): boolean =>
    spot.x > 0 && spot.y > 0 && spot.x < pad.width && spot.y < pad.height;
  const all = Array.from({ length: PARTS + 1 }, (_, i) =>
    at(strip.top_m + ((strip.bottom_m - strip.top_m) * i) / PARTS),
  );
  const seen = all.some(inView) ? all.filter(inView) : all;
  const edge = seen[Math.floor(seen.length * (side === 'middle' ? 0.25 : 0.5))]!;
  const out = OUTWARD[side];
  return { edge, grip: { x: edge.x + place.right.x * out, y: edge.y + place.right.y * out } };
}

const PARTS = 40;

export function SideHandle({
  side,
  spot: { grip },
  place,
  strip,
  onMove,
}: {
  side: Side;
  spot: SideSpot;
  place: StripPlace;
  strip: Strip;
  /** To a place across the core, metres to the right of the line through the marks with the top up. */
  onMove: (across_m: number) => void;
}) {
  const across_m = acrossOf(strip, side);
  const mm = Math.round(across_m * 1000);
  const turn = (Math.atan2(place.right.y, place.right.x) * 180) / Math.PI;
  const stem = `M0 0H${-OUTWARD[side]}`;
  return (
    <g
      role="slider"
      tabIndex={0}
      aria-label={NAMES[side]}
      aria-valuemin={-1500}
      aria-valuemax={1500}
      aria-valuenow={mm}
      aria-valuetext={`${Math.abs(mm)} mm ${mm < 0 ? 'left' : 'right'} of the line through the marks`}
      className="side-handle"
      transform={`translate(${grip.x} ${grip.y}) rotate(${turn})`}
      onKeyDown={(event) => {
        const step = event.shiftKey ? 0.01 : 0.002;
        const by = event.key === 'ArrowLeft' ? -step : event.key === 'ArrowRight' ? step : 0;
        if (by === 0) return;
        event.preventDefault();
        onMove(across_m + by);
      }}
    >
      <circle className="focus-ring" r={24} />
      <path className="lining" d={stem} />
      <path className="line" d={stem} />
      <circle className="grip" r={12} />
      <path className="grip-sign" d="M-2 -5L-7 0L-2 5M2 -5L7 0L2 5" />
    </g>
  );
}
