/**
 * How fast the string went down, drive by drive, on the hole's own depth: in the place of the enlarged ends while the
 * last thing done was a drive. The last drive in ink; half of what is usual a broken line that its bar should reach.
 */
import {
  box,
  CautionMark,
  DASHED,
  LINE,
  LyingStaff,
  StopMark,
  scale,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { depthScale, TOP } from './place.ts';
import { useSay } from './say.ts';
import type { HoleView } from './view.ts';

/** From the zero of the rate to the end of its staff, points. */
const ZERO = 128;
/** A bar thinner than this cannot be seen. */
const LEAST = 1.2;

export function RateBars({ view, height, right }: { view: HoleView; height: number; right: number }) {
  const ink = useInk();
  const say = useSay();
  const drives = view.drives!;
  const depth = depthScale(view, height);
  const last = drives.at(-1)!;
  const usual = last.usual_m_per_min;
  const most = Math.max(0.5, usual ?? 0, ...drives.map((d) => d.rate_m_per_min));
  const across = scale(0, most, ZERO, right - 16);
  const staffY = TOP + 12;
  const bars = drives.map((d) => {
    const [y1, y2] = [depth(Math.max(0, d.from_m)), depth(Math.max(0, d.to_m))];
    return { d, y1, y2: Math.max(y2, y1 + LEAST), x2: across(Math.max(0, d.rate_m_per_min)) };
  });
  const foot = bars.at(-1)!.y2;
  const words = usual === null ? '' : `of usual ${printed(usual, 2)}`;
  const half = usual === null ? ZERO : across(usual / 2);
  const isSlow = last.pace === 'slowing' || last.pace === 'refusal';
  // at the side where it has room
  const isRight = half + 4 + textWidth(words) < right;
  return (
    <g>
      <Text x={right} y={7} anchor="end" voice="ink2">
        m/min
      </Text>
      <LyingStaff
        y={staffY}
        scale={across}
        low={0}
        high={most}
        labels="above"
        {...staffStep(across.k, 8, 14)}
      />
      <path d={vertical(ZERO, staffY + 4, height - 4)} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      {bars.map(({ d, y1, y2, x2 }) => (
        <path
          key={d.row_id}
          d={box(ZERO, y1, Math.max(x2, ZERO + 0.5), y2)}
          fill={d === last ? ink.ink : ink.leaf}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
        />
      ))}
      {bars.map(({ d, y1, y2, x2 }) =>
        d.pace === 'slowing' ? (
          <CautionMark key={d.row_id} x={x2 + 7} y={(y1 + y2) / 2 + 3} />
        ) : d.pace === 'refusal' ? (
          <StopMark key={d.row_id} x={x2 + 7} y={(y1 + y2) / 2} />
        ) : null,
      )}
      {usual === null ? null : (
        <>
          <path
            d={vertical(half, bars.at(-1)!.y1, Math.min(height - 4, foot + 22))}
            stroke={ink.caution}
            strokeWidth={1.1}
            fill="none"
            {...DASHED}
          />
          {(isSlow || foot + 24 < height ? ['slow: half', words] : []).map((line, i) => (
            <Text
              key={line}
              x={isRight ? half + 4 : half - 4}
              y={Math.min(foot + 9, height - 15) + 9 * i}
              anchor={isRight ? 'start' : 'end'}
              voice="caution"
              halo
            >
              {say(line)}
            </Text>
          ))}
        </>
      )}
    </g>
  );
}
