/** Cumulative curves: per cent coarser against φ, coarse at the left, each with its number. */
import {
  horizontal,
  LINE,
  LyingStaff,
  move,
  multiples,
  overlaps,
  polyline,
  type Rect,
  Ruling,
  type Scale,
  scale,
  staffStep,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import type { NumberedGrains } from './key.ts';

/** Whole φ around all limits, at least from very coarse sand to coarse silt. */
function phiAxis(of: readonly NumberedGrains[]): [number, number] {
  const ends = of.flatMap(({ curve }) => curve.map(([phi]) => phi));
  return [Math.floor(Math.min(-1, ...ends)), Math.ceil(Math.max(5, ...ends))];
}

/** Limits of gravel, sand, silt and clay, φ, and what lies from each on. */
const PARTS = [
  ['gravel', -Infinity],
  ['sand', -1],
  ['silt', 4],
  ['clay', 8],
] as const;

export function GrainCurves({ of, at }: { of: readonly NumberedGrains[]; at: Rect }) {
  const ink = useInk();
  const [coarse, fine] = phiAxis(of);
  const x = scale(coarse, fine, at.x1, at.x2);
  const y = scale(0, 100, at.y2, at.y1);
  const step = staffStep(x.k, Math.max(x.k, 6), 15);
  const ends = of.flatMap(({ curve, size }) => openEnd(curve, size.open_fine_percent ?? 0));
  return (
    <g>
      <Ruling at={[25, 50, 75]} d={(percent) => horizontal(at.x1, at.x2, y(percent))} />
      <path
        d={PARTS.slice(1)
          .filter(([, phi]) => phi > coarse && phi < fine)
          .map(([, phi]) => vertical(x(phi), at.y1, at.y2))
          .join('')}
        stroke={ink.line}
        strokeWidth={LINE.hair}
        fill="none"
      />
      {PARTS.map(([part, from], i) => {
        const to = PARTS[i + 1]?.[1] ?? Infinity;
        const [left, right] = [x(Math.max(from, coarse)), x(Math.min(to, fine))];
        return right - left < textWidth(part) + 2 ? null : (
          <Text key={part} x={(left + right) / 2} y={at.y1 - 4} anchor="middle" voice="ink2">
            {part}
          </Text>
        );
      })}
      <UprightStaff x={at.x1 - 6} scale={y} low={0} high={100} sign={false} step={10} every={5} />
      <LyingStaff
        y={at.y2 + 3}
        scale={x}
        low={coarse}
        high={fine}
        labels="below"
        label={phiLabel}
        {...step}
      />
      {multiples(coarse, fine, Math.max(4, Math.ceil(22 / x.k / 4) * 4)).map((phi) => (
        <Text key={phi} x={x(phi)} y={at.y2 + 23} anchor="middle" voice="ink2">
          {millimetres(phi)}
        </Text>
      ))}
      <Text x={at.x2} y={at.y2 + 32} anchor="end" voice="ink2">
        φ above, mm below
      </Text>
      {of.map(({ number, curve }) => (
        <path
          key={number}
          d={polyline(curve.map(([phi, percent]) => [x(phi), y(percent)] as const))}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          strokeDasharray={DASHES[(number - 1) % DASHES.length]}
          strokeLinejoin="round"
          fill="none"
        />
      ))}
      <path
        d={ends.map(([phi, percent]) => ring(x(phi), y(percent))).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        fill={ink.paper}
      />
      {placedNumbers(of, x, y).map(({ number, x, y }) => (
        <Text key={number} x={x} y={y} anchor="middle" weight={600} halo>
          {number}
        </Text>
      ))}
    </g>
  );
}

/** Curves next to each other are drawn differently; the numbers say which is which. */
const DASHES = [undefined, '4 1.6', '1.2 1.6', '6 1.6 1.2 1.6'] as const;

const phiLabel = (phi: number): string => printed(phi, 0);

function millimetres(phi: number): string {
  const mm = phi <= 0 ? 1 << -phi : 1 / (1 << phi);
  return mm >= 1 ? printed(mm, 0) : printed(mm, mm >= 0.01 ? 2 : mm >= 0.001 ? 3 : 4);
}

/** Where a curve stops below 100 %: the rest is in a class without an end. */
const openEnd = (curve: NumberedGrains['curve'], open: number): (readonly [number, number])[] =>
  open > 0 && curve.length > 0 ? [curve.at(-1)!] : [];

const ring = (x: number, y: number): string => {
  const r = 1.6;
  return `${move(x - r, y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
};

/** On each curve where it is steepest; moved along it where another number stands. Left out where there is no room. */
function placedNumbers(of: readonly NumberedGrains[], x: Scale, y: Scale) {
  const taken: Rect[] = [];
  return of.flatMap(({ number, curve }) => {
    const width = textWidth(String(number), { weight: 600 });
    for (const percent of [50, 40, 60, 30, 70, 22, 80, 14, 88]) {
      const phi = phiOn(curve, percent);
      if (phi === null) continue;
      const [cx, cy] = [x(phi), y(percent)];
      const rect = { x1: cx - width / 2 - 1, x2: cx + width / 2 + 1, y1: cy - 3.5, y2: cy + 3.5 };
      if (taken.some((other) => overlaps(rect, other))) continue;
      taken.push(rect);
      return [{ number, x: cx, y: cy + 2.5 }];
    }
    return [];
  });
}

function phiOn(curve: NumberedGrains['curve'], percent: number): number | null {
  for (let i = 1; i < curve.length; i++) {
    const [[phi, share], [next, more]] = [curve[i - 1]!, curve[i]!];
    if (share <= percent && more >= percent && more > share)
      return phi + ((percent - share) / (more - share)) * (next - phi);
  }
  return null;
}
