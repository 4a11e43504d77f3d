/** The chosen contact of a section, bold, and what a hand takes hold of: a square lifts its middle, a wedge moves its end. */
import { polygon, polyline, useInk } from '@stillstand/output/drawing';
import { useRef } from 'react';
import { type EditableContact, fractionOf, nameOf } from './contacts.ts';
import './handles.css';

/** Metres a press of an arrow lifts by, and finer with Shift; shares of the way that it moves an end by. */
const STEP = { lift_m: 0.05, fine_m: 0.01, share: 0.02, fine: 0.005 } as const;
/** Half the mark of a handle, points. */
const MARK = 2.8;

export type Grip = { kind: 'lift'; by_m: number } | { kind: 'end'; at_fraction: number };

interface HandlesProps {
  each: EditableContact;
  /** Its line as it is being moved, on paper. */
  line: readonly (readonly [number, number])[];
  /** Its lift now, m. */
  lift_m: number;
  /** Where it ends now, share of the way; null where it does not end. */
  end: number | null;
  /** Points to a metre up, and over the whole way from its first hole to the other, signed. */
  per_m: number;
  way: number;
  /** The least target, points, and pixels to a point. */
  touch: number;
  px: number;
  isReadOnly: boolean;
  onGrip: (grip: Grip, how: 'held' | 'let go' | 'key') => void;
}

export function Handles(props: HandlesProps) {
  const { each, line, lift_m, end, touch } = props;
  const ink = useInk();
  const half = touch / 2;
  const middle = middleOf(line);
  const at = line.length === 0 ? null : endOf(each, line);
  return (
    <g className="section-handles">
      <path d={polyline(line)} stroke={ink.paper} strokeWidth={3.4} fill="none" />
      <path d={polyline(line)} stroke={ink.ink} strokeWidth={1.9} fill="none" strokeLinejoin="round" />
      {each.contact.is_lateral || middle === null ? null : (
        <Grab
          {...props}
          name={`Middle of ${nameOf(each)}`}
          orientation="vertical"
          min={-100}
          max={100}
          now={lift_m}
          words={`lifted by ${lift_m.toFixed(2)} m`}
          at={middle}
          half={half}
          onMove={(from, _, dy, how) => props.onGrip({ kind: 'lift', by_m: from - dy / props.per_m }, how)}
          onStep={(along, up, isFine) => {
            if (along !== 0) return false;
            props.onGrip({ kind: 'lift', by_m: lift_m + up * (isFine ? STEP.fine_m : STEP.lift_m) }, 'key');
            return true;
          }}
        >
          <path
            d={polygon([
              [middle[0] - MARK, middle[1] - MARK],
              [middle[0] + MARK, middle[1] - MARK],
              [middle[0] + MARK, middle[1] + MARK],
              [middle[0] - MARK, middle[1] + MARK],
            ])}
            fill={ink.paper}
            stroke={ink.ink}
            strokeWidth={1.2}
          />
        </Grab>
      )}
      {end === null || at === null ? null : (
        <Grab
          {...props}
          name={`End of ${nameOf(each)}`}
          orientation="horizontal"
          min={0}
          max={1}
          now={end}
          words={`${Math.round(end * 100)} % of the way to ${each.hole_b}`}
          at={at}
          half={half}
          onMove={(from, dx, _, how) =>
            props.onGrip({ kind: 'end', at_fraction: from + dx / props.way }, how)
          }
          onStep={(along, up, isFine) => {
            if (up !== 0) return false;
            const by = along * Math.sign(props.way) * (isFine ? STEP.fine : STEP.share);
            props.onGrip({ kind: 'end', at_fraction: end + by }, 'key');
            return true;
          }}
        >
          <path
            d={polygon([
              [at[0] - Math.sign(props.way) * 2.5, at[1] - 3.6],
              [at[0] + Math.sign(props.way) * 4.5, at[1]],
              [at[0] - Math.sign(props.way) * 2.5, at[1] + 3.6],
            ])}
            fill={ink.paper}
            stroke={ink.ink}
            strokeWidth={1.2}
            strokeLinejoin="round"
          />
        </Grab>
      )}
    </g>
  );
}

function middleOf(line: readonly (readonly [number, number])[]): readonly [number, number] | null {
  const [first, last] = [line[0], line.at(-1)];
  if (first === undefined || last === undefined) return null;
  const x = (first[0] + last[0]) / 2;
  const after = line.findIndex(([at]) => at >= x);
  if (after <= 0) return [x, (first[1] + last[1]) / 2];
  const [a, b] = [line[after - 1]!, line[after]!];
  return [x, b[0] === a[0] ? b[1] : a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1])];
}

/** Where it ends: the place farthest from its first hole; of a side its middle. */
function endOf(
  each: EditableContact,
  line: readonly (readonly [number, number])[],
): readonly [number, number] {
  if (each.contact.is_lateral) {
    const [a, b] = [line[0]!, line.at(-1)!];
    return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  }
  return each.to_m > each.from_m ? line.at(-1)! : line[0]!;
}

/** A handle under a finger's target. It follows the pointer from where it was taken hold of. */
function Grab({
  name,
  orientation,
  min,
  max,
  now,
  words,
  at: [x, y],
  half,
  px,
  isReadOnly,
  onMove,
  onStep,
  children,
}: Pick<HandlesProps, 'px' | 'isReadOnly'> & {
  name: string;
  orientation: 'vertical' | 'horizontal';
  min: number;
  max: number;
  now: number;
  words: string;
  at: readonly [number, number];
  half: number;
  /** From the value that it was taken hold of at; points to the right and down. */
  onMove: (from: number, dx: number, dy: number, how: 'held' | 'let go') => void;
  /** Along to the right and up; whether the key was taken. */
  onStep: (along: number, up: number, isFine: boolean) => boolean;
  children: React.ReactNode;
}) {
  /** Where it was taken hold of, and its value then. */
  const held = useRef<{ x: number; y: number; now: number } | null>(null);
  const follow = (event: React.PointerEvent, how: 'held' | 'let go'): void => {
    const start = held.current;
    if (start === null) return;
    const [dx, dy] = [(event.clientX - start.x) / px, (event.clientY - start.y) / px];
    if (how === 'let go') {
      held.current = null;
      // A press alone moves nothing.
      if (dx === 0 && dy === 0) return;
    }
    onMove(start.now, dx, dy, how);
  };
  return (
    <g
      role="slider"
      tabIndex={0}
      className="section-handle"
      aria-label={name}
      aria-orientation={orientation}
      aria-valuemin={min}
      aria-valuemax={max}
      aria-valuenow={now}
      aria-valuetext={words}
      aria-readonly={isReadOnly}
      onKeyDown={(event) => {
        const keys: Record<string, [number, number]> = {
          ArrowUp: [0, 1],
          ArrowDown: [0, -1],
          ArrowLeft: [-1, 0],
          ArrowRight: [1, 0],
        };
        const key = keys[event.key];
        if (key === undefined || isReadOnly) return;
        if (onStep(key[0], key[1], event.shiftKey)) event.preventDefault();
      }}
      onPointerDown={(event) => {
        if (event.button !== 0 || isReadOnly) return;
        event.preventDefault();
        event.stopPropagation();
        event.currentTarget.focus({ preventScroll: true });
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = { x: event.clientX, y: event.clientY, now };
      }}
      onPointerMove={(event) => follow(event, 'held')}
      onPointerUp={(event) => follow(event, 'let go')}
      onPointerCancel={() => {
        held.current = null;
      }}
    >
      <rect className="target" x={x - half} y={y - half} width={2 * half} height={2 * half} />
      {children}
    </g>
  );
}

/** A line as it will run, before it is computed: its middle lifted, its end moved, smooth between. */
export function previewed(
  line: readonly (readonly [number, number])[],
  each: EditableContact,
  { lift, end, way }: { lift: number; end: number | null; way: number },
): (readonly [number, number])[] {
  const [first, last] = [line[0], line.at(-1)];
  if (first === undefined || last === undefined) return [];
  const before = fractionOf(each);
  if (each.contact.is_lateral && end !== null) return line.map(([x, y]) => [x + (end - before) * way, y]);
  const isForward = each.to_m > each.from_m;
  const root = isForward ? first[0] : last[0];
  const stretch = end === null || before <= 0 ? 1 : end / before;
  return line.map(([x, y]) => {
    const u = last[0] === first[0] ? 0 : (x - first[0]) / (last[0] - first[0]);
    return [root + (x - root) * stretch, y - 4 * u * (1 - u) * lift];
  });
}
