/** What the two enlarged ends of the string have in common: the pipe, its torn edge, labels beside it. Lengths are from the collar. */
import {
  LINE,
  line,
  move,
  placeAlong,
  r2,
  Span,
  TEXT_FAMILY,
  Text,
  useInk,
} from '@stillstand/output/drawing';
import { useSay } from './say.ts';

export const X = { title: 123, pipe: 140, label: 160 } as const;
export const HALF = { outer: 14, inner: 11.2, sampler: 7 } as const;
const LABEL = 8.2;

export interface Label {
  key: string;
  at: number;
  word: string;
  number: string;
  voice: 'ink' | 'sea' | 'danger';
  strong: boolean;
  water?: boolean;
}

/** The labels from above, each with the middle of its line: moved apart where they would touch. */
export function placed(labels: readonly Label[], from: number, to: number): { label: Label; y: number }[] {
  const ordered = [...labels].sort((a, b) => a.at - b.at);
  const centres = placeAlong(
    ordered.map((l) => ({ at: l.at, size: LABEL })),
    from,
    to,
  );
  return ordered.map((label, i) => ({ label, y: centres[i]! }));
}

/** The height nearest to `wanted` from `y1` to `y2` at which a line beside the pipe strikes through no label; null without one. */
export function clearOf(
  labels: readonly { y: number }[],
  wanted: number,
  y1: number,
  y2: number,
): number | null {
  const half = LABEL / 2;
  const heights = [wanted, ...labels.flatMap(({ y }) => [y - half, y + half])];
  const free = heights.filter(
    (h) => h >= y1 && h <= y2 && labels.every(({ y }) => Math.abs(h - y) >= half - 1e-9),
  );
  return free.sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0] ?? null;
}

/** Labels beside the pipe, each with a leader to its place. */
export function Labels({
  labels,
  from,
  to,
  danger,
}: {
  labels: readonly Label[];
  from: number;
  to: number;
  danger: string;
}) {
  const ink = useInk();
  const say = useSay();
  return (
    <g>
      {placed(labels, from, to).map(({ label: l, y }) => {
        const fill = l.voice === 'danger' ? danger : l.voice === 'sea' ? ink.sea : ink.ink;
        return (
          <g key={l.key}>
            <path
              d={`${move(X.pipe + HALF.outer + 1.6, l.at)}${line(X.label - 1.4, y)}`}
              stroke={l.voice === 'sea' ? ink.sea : ink.ink}
              strokeWidth={LINE.hair}
              fill="none"
            />
            {l.water ? (
              <Text x={X.label} y={y + 2.4} face="water" voice="sea">
                {say(l.word)} {l.number}
              </Text>
            ) : (
              <text
                x={X.label}
                y={r2(y + 2.4)}
                fontFamily={TEXT_FAMILY}
                fill={fill}
                fontWeight={l.strong ? 700 : undefined}
              >
                {say(l.word)}
                {l.number === '' ? null : (
                  <Span weight={400} voice="ink2">
                    {` ${l.number}`}
                  </Span>
                )}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** A torn edge: the pipe goes on. */
const torn = (y: number): string => {
  const left = X.pipe - HALF.outer - 3.5;
  let d = move(left, y);
  for (let i = 1; i <= 8; i++)
    d += line(left + (i * (HALF.outer * 2 + 7)) / 8, y + (i % 2 === 0 ? 2.2 : -2.2));
  return d;
};

/** Its name, and under it why nothing is drawn. */
export function EndTitle({
  top,
  name,
  instead = null,
}: {
  top: number;
  name: string;
  instead?: string | null;
}) {
  const say = useSay();
  return (
    <>
      <Text x={X.title} y={top + 4} weight={600}>
        {say(name)}
      </Text>
      {instead === null ? null : (
        <Text x={X.title} y={top + 15} voice="ink2">
          {say(instead)}
        </Text>
      )}
    </>
  );
}

/** Where the drawing ends and the pipe goes on: torn, the rest under paper `room` points beyond. */
export function TornEnd({ at, room }: { at: number; room: number }) {
  const ink = useInk();
  const half = HALF.outer + 3.5;
  return (
    <>
      <path
        d={`${torn(at)}${line(X.pipe + half, at + room)}${line(X.pipe - half, at + room)}Z`}
        fill={ink.paper}
      />
      <path d={torn(at)} fill="none" stroke={ink.ink} strokeWidth={0.7} />
    </>
  );
}
