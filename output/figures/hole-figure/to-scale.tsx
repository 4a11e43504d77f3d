/** The hole to scale: the ground, and the string in it. What has not been read or sampled is left paper. */
import { horizontal, LINE, scale, staffStep, Text, UprightStaff, useInk } from '@stillstand/output/drawing';
import { GroundBeside, LeftBehind, Reference, WaterOutside } from './ground.tsx';
import { CABLE, type Place, TOP, X } from './place.ts';
import { PIPE } from './steel.ts';
import { StringInGround } from './string.tsx';
import type { HoleView } from './view.ts';

/** A hole not begun is drawn this deep. */
const LEAST_DEPTH_M = 3;

export function ToScale({
  view,
  height,
  id,
  danger,
}: {
  view: HoleView;
  height: number;
  id: string;
  danger: string;
}) {
  const ink = useInk();
  const shown = collarDepth(view);
  const deepest = Math.max(
    LEAST_DEPTH_M,
    (view.shoe_depth_m ?? 0) + 0.25,
    shown === null || view.collar_to_shoe_m === null ? 0 : shown + view.collar_to_shoe_m + 0.25,
    ...view.left.map((l) => l.bottom_m + 0.25),
  );
  const above = Math.max(0.6, shown === null ? 0 : -shown, -(view.water_outside_m ?? 0) + 0.2);
  const depth = scale(-above, deepest, TOP + CABLE, height - 4);
  const place: Place = { view, depth, collar: shown, id, danger };
  const step = staffStep(depth.k, deepest > 4 ? 14 : 24, 11);
  return (
    <g>
      <Text x={7} y={7} voice="ink2">
        depth, m
      </Text>
      <GroundBeside {...place} bottom={deepest} />
      <UprightStaff x={X.staff} scale={depth} low={0} high={deepest} sign={false} {...step} />
      <WaterOutside {...place} />
      <path
        d={
          shown === null
            ? horizontal(X.staff + 4, X.groundRight + 1, depth(0))
            : `${horizontal(X.staff + 4, X.pipe - PIPE.outer, depth(0))}${horizontal(X.pipe + PIPE.outer, X.groundRight + 1, depth(0))}`
        }
        stroke={ink.ink}
        strokeWidth={LINE.page}
        fill="none"
      />
      <Reference {...place} />
      <LeftBehind {...place} />
      {shown === null ? null : <StringInGround {...place} collar={shown} />}
    </g>
  );
}

/** Where the collar stands, below the ground; a string being pulled, whose height nobody reads, is drawn a metre up. */
function collarDepth(view: HoleView): number | null {
  if (view.items.length === 0) return null;
  return view.collar_above_ground_m === null ? -1 : -view.collar_above_ground_m;
}
