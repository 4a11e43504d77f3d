/** The hole to scale: the ground, and the string in it. What has not been read or sampled is left paper. */
import { horizontal, LINE, staffStep, Text, UprightStaff, useInk } from '@stillstand/output/drawing';
import { Ahead } from './ahead.tsx';
import { GroundBeside, LeftBehind, Reference, WaterOutside } from './ground.tsx';
import { collarDepth, depthScale, type Place, X } from './place.ts';
import { useSay } from './say.ts';
import { PIPE } from './steel.ts';
import { StringInGround } from './string.tsx';
import type { HoleView } from './view.ts';

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
  const say = useSay();
  const shown = collarDepth(view);
  const depth = depthScale(view, height);
  const deepest = depth.to;
  const place: Place = { view, depth, collar: shown, id, danger };
  const step = staffStep(depth.k, deepest > 4 ? 14 : 24, 11);
  return (
    <g>
      <Text x={7} y={7} voice="ink2">
        {say('depth, m')}
      </Text>
      <GroundBeside {...place} bottom={Math.min(deepest, ...view.ahead.map((a) => a.from_m))} />
      <Ahead {...place} bottom={deepest} />
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
