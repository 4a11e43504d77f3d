/**
 * The two copies over time as two strands: this device whole, the copy broken. A tick is an act, a ring a conflict, thin
 * once it is decided.
 */
import type { MergePlan, StrandAct } from '@stillstand/campaign/merge';
import { useMemo } from 'react';
import { counted, useWidth } from '../../parts/index.ts';
import { placeActs } from './place-acts.ts';
import './strands.css';
import { whenWords, whoWords } from './when-words.ts';

const HEIGHT = 206;
/** The strands, and the line they come from. */
const OURS = 52;
const THEIRS = 132;
const MIDDLE = (OURS + THEIRS) / 2;
const RING = 15;
/** Of many conflicts each is a dot without a number. */
const DOT = 4;
/** A strand leaves the line over this width, px. */
const BEND = 54;
const SCALE = 188;

export function Strands({
  plan,
  open,
  now_ms,
}: {
  plan: MergePlan;
  open: ReadonlySet<string>;
  now_ms: number;
}) {
  const [ref, width] = useWidth(780);
  const isNarrow = width < 560;
  const marks = Math.max(2, Math.floor(width / (isNarrow ? 150 : 160)));
  const placed = useMemo(() => placeActs(plan, now_ms, marks), [plan, now_ms, marks]);
  const fork = isNarrow ? 16 : 150;
  const from = fork + BEND;
  const to = width - BEND - (isNarrow ? 10 : 24);
  const x = (at: number): number => from + at * (to - from);
  const radius = plan.conflicts.length * 2.3 * RING < to - from ? RING : DOT;
  const rings = radius === RING ? apart(placed.rings.map(x), 2.3 * RING, to) : placed.rings.map(x);
  const edges = [x(0), ...placed.scale.map(({ at }) => x(at)), x(1)];
  const bars = placed.scale.length === 0 ? [] : edges.slice(1).map((edge, i) => [edges[i]!, edge] as const);
  const hasOurs = plan.ours.length > 0;
  const hasTheirs = plan.theirs.length > 0;
  const since = plan.since === null ? null : whenWords(plan.since.time);

  return (
    <figure className="strands" ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${HEIGHT}`}
        width={width}
        height={HEIGHT}
        role="img"
        aria-label={spoken(plan, open.size)}
      >
        <path className="strand whole" d={`M0 ${MIDDLE}H${fork}${hasOurs ? bent(OURS) : `H${to + BEND}`}`} />
        {hasTheirs ? <path className="strand copy" d={`M${fork} ${MIDDLE}${bent(THEIRS)}`} /> : null}
        <path className="strand after" d={`M${to + BEND} ${MIDDLE}H${width}`} />
        {since === null || isNarrow ? null : (
          <>
            <text x={0} y={MIDDLE - 12} className="quiet">
              the same to
            </text>
            <text x={0} y={MIDDLE + 24} className="quiet">
              {since}
            </text>
          </>
        )}
        <circle cx={fork} cy={MIDDLE} r={6} />
        <path className="ticks" d={ticks(placed.ours.map(x), OURS, -7)} />
        <path className="ticks" d={ticks(placed.theirs.map(x), THEIRS, 7)} />
        {rings.map((at, i) => {
          const { key } = plan.conflicts[i]!;
          return (
            <g key={key} className={open.has(key) ? 'ring open' : 'ring'}>
              <path
                d={`M${at} ${hasOurs ? OURS : MIDDLE}V${MIDDLE - radius}M${at} ${MIDDLE + radius}V${THEIRS}`}
              />
              <circle cx={at} cy={MIDDLE} r={radius} />
              {radius < RING ? null : (
                <text x={at} y={MIDDLE + 6}>
                  {i + 1}
                </text>
              )}
            </g>
          );
        })}
        {hasOurs ? (
          <text x={from} y={OURS - 16}>
            <tspan className="who">This device</tspan> {strandWords(plan.ours, isNarrow)}
          </text>
        ) : null}
        {hasTheirs ? (
          <text x={from} y={THEIRS + 26}>
            <tspan className="who">The copy</tspan> {strandWords(plan.theirs, isNarrow)}
          </text>
        ) : null}
        {bars.map(([left, right], i) => (
          <rect
            key={left}
            className={i % 2 === 0 ? 'bar' : 'bar full'}
            x={left}
            y={SCALE - 10}
            width={right - left}
            height={6}
          />
        ))}
        {placed.scale.map(({ at, words }) => (
          <g key={at} className="scale">
            <text x={Math.min(Math.max(x(at), 30), width - 30)} y={SCALE + 12} className="quiet">
              {words}
            </text>
          </g>
        ))}
      </svg>
      {placed.fault === null ? null : (
        <figcaption>
          <b>A clock is wrong.</b> {placed.fault}. Strands are drawn by order, not by time.
        </figcaption>
      )}
    </figure>
  );

  /** From the fork to a strand, along it, and back. */
  function bent(y: number): string {
    const half = BEND / 2;
    return `C${fork + half} ${MIDDLE} ${fork + half} ${y} ${from} ${y}H${to}C${to + half} ${y} ${to + half} ${MIDDLE} ${to + BEND} ${MIDDLE}`;
  }
}

/** Places that are at least `least` apart, none beyond `end`; each as near to where it was as that allows. */
function apart(places: readonly number[], least: number, end: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a]! - places[b]! || a - b);
  const found = [...places];
  for (const [at, i] of order.entries()) {
    if (at > 0) found[i] = Math.max(found[i]!, found[order[at - 1]!]! + least);
  }
  for (const [at, i] of order.toReversed().entries()) {
    found[i] = Math.min(found[i]!, at === 0 ? end : found[order.at(-at)!]! - least);
  }
  return found;
}

/** Acts that fall on one pixel are one tick. */
const ticks = (places: readonly number[], y: number, length: number): string =>
  [...new Set(places.map(Math.round))].map((x) => `M${x} ${y}v${length}`).join('');

/** "driller, tablet B, 212 changes". */
function strandWords(acts: readonly StrandAct[], isNarrow: boolean): string {
  const count = counted(acts.length, 'change');
  const who = [...new Set(acts.map(whoWords).filter(Boolean))];
  if (isNarrow || who.length === 0) return count;
  return `${who.length > 1 ? `${who[0]} and ${who.length - 1} more` : who[0]}, ${count}`;
}

const spoken = ({ ours, theirs, since, conflicts }: MergePlan, open: number): string =>
  `${since === null ? 'No change in common' : `The same to ${whenWords(since.time)}`}; since then ${counted(ours.length, 'change')} on this device and ${counted(theirs.length, 'change')} in the copy; ${counted(conflicts.length, 'conflict')}, ${open} open.`;
