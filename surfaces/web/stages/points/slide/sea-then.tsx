/** The sea of then: the point's own mark, its box as high as its error. */
import type { PointResult } from '@stillstand/campaign/results';
import { PointMark, type scale, Text, textWidth } from '@stillstand/output/drawing';
import type { Made } from '../../../claim/index.ts';
import { printed, signed } from '../../../parts/index.ts';

export function SeaThen({
  point,
  claim,
  y,
  from,
  to,
  decimals,
}: {
  point: PointResult;
  claim: Made;
  y: ReturnType<typeof scale>;
  from: number;
  to: number;
  decimals: number;
}) {
  const spread = 2 * claim.sigma_m * Math.abs(y.k);
  const middle = from + (to - from) * 0.5;
  const half = Math.min(17, (to - from) * 0.28);
  const value = `${signed(claim.rsl_m, decimals)}`;
  const error = `±${printed(2 * claim.sigma_m, decimals)} m`;
  const start = textWidth(value, { weight: 600 }) + textWidth(' ');
  const width = start + textWidth(error);
  // On the side the mark leaves free: a marine limit has its ticks above.
  const at = claim.kind === 'marine' ? y(0) - Math.max(spread, 2) - 12.4 : y(0) + Math.max(spread, 2) + 8.5;
  return (
    <g>
      <PointMark
        point={{ kind: claim.kind, position: point.position, status: point.status }}
        at={{ x1: middle - half, x2: middle + half, x: middle, y: y(0), spread }}
      />
      <Text x={middle - width / 2} y={at} weight={600} halo>
        {value}
      </Text>
      <Text x={middle - width / 2 + start} y={at} voice="ink2" halo>
        {error}
      </Text>
      <Text x={middle} y={at + 8.4} anchor="middle" voice="ink2" halo>
        {claim.kind === 'index'
          ? 'sea level then'
          : claim.kind === 'terrestrial'
            ? 'sea was below'
            : 'sea was above'}
      </Text>
    </g>
  );
}
