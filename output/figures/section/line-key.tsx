/** What the lines of a section say, in rows under its sediments: only those that are drawn. */
import { inRows, LINE, Lozenge, polyline, Text, textWidth, useInk } from '@stillstand/output/drawing';
import { type DrawnContact, surenessOf, waveAlong } from './contacts.tsx';
import type { PlacedSection } from './drawing.tsx';
import { tieDashes } from './ties.tsx';
import { beads } from './time-lines.tsx';

export type LineSign =
  | 'certain'
  | 'probable'
  | 'possible'
  | 'erosional'
  | 'time'
  | 'dated'
  | 'dated_rejected';

const WORDS: Record<LineSign, string> = {
  certain: 'certain',
  probable: 'probable',
  possible: 'possible or not known',
  erosional: 'erosional',
  time: 'time line, cal BP',
  dated: 'dated, cal BP',
  dated_rejected: 'dated, rejected',
};

/** Of a swatch, points. */
const SIGN_WIDTH = 22;
const ROW = 12;
/** Between two entries of a row, points. */
const GAP = 14;

/** What is drawn, in the order of the key. */
export function signsOfSection(
  { layout, contacts }: Pick<PlacedSection, 'layout' | 'contacts'>,
  ties: readonly { hole_a: string; hole_b: string; confidence: string | null }[],
): LineSign[] {
  const { stands, section } = layout;
  const holes = new Set(stands.map(({ hole }) => hole.hole));
  const dates = stands.flatMap((stand) => stand.dates.map(({ date }) => date));
  const sure = new Set<string>([
    ...contacts.map(({ contact }) => surenessOf(contact)),
    ...ties
      .filter(({ hole_a, hole_b }) => holes.has(hole_a) && holes.has(hole_b))
      .map(({ confidence }) => confidence ?? 'probable'),
  ]);
  const shown: [LineSign, boolean][] = [
    ['certain', sure.has('certain')],
    ['probable', sure.has('probable')],
    ['possible', sure.has('possible')],
    ['erosional', contacts.some(({ contact }: DrawnContact) => contact.is_erosional)],
    ['time', (section?.time_lines.length ?? 0) > 0],
    ['dated', dates.some(({ status }) => status !== 'rejected')],
    ['dated_rejected', dates.some(({ status }) => status === 'rejected')],
  ];
  return shown.filter(([, is]) => is).map(([sign]) => sign);
}

interface LineKeyItem {
  sign: LineSign;
  x: number;
  row: number;
}

export function lineKeyRows(signs: readonly LineSign[], width: number): LineKeyItem[] {
  const room = (sign: LineSign): number => SIGN_WIDTH + 4 + textWidth(WORDS[sign]);
  return inRows(signs, width, GAP, room).map(({ item, x, row }) => ({ sign: item, x, row }));
}

export const lineKeyHeight = (items: readonly LineKeyItem[]): number =>
  items.length === 0 ? 0 : (items.at(-1)!.row + 1) * ROW;

export function LineKey({ items, y }: { items: readonly LineKeyItem[]; y: number }) {
  return (
    <g>
      {items.map(({ sign, x, row }) => (
        <g key={sign}>
          <SignSwatch sign={sign} x={x} y={y + row * ROW + 4.6} />
          <Text x={x + SIGN_WIDTH + 4} y={y + row * ROW + 7}>
            {WORDS[sign]}
          </Text>
        </g>
      ))}
    </g>
  );
}

/** A line as it is drawn, from `x`, its middle at `y`. */
export function SignSwatch({
  sign,
  x,
  y,
  width = SIGN_WIDTH,
}: {
  sign: LineSign;
  x: number;
  y: number;
  width?: number;
}) {
  const ink = useInk();
  const across = [
    [x, y],
    [x + width, y],
  ] as const;
  switch (sign) {
    case 'dated':
    case 'dated_rejected':
      return <Lozenge x={x + width / 2} y={y} filled={sign === 'dated'} size={1.9} />;
    case 'time':
      return (
        <g stroke={ink.ink} strokeLinecap="round" fill="none">
          <path d={polyline(across)} strokeWidth={LINE.hair} />
          <path d={beads(across)} strokeWidth={2.1} />
        </g>
      );
    default:
      return (
        <path
          d={sign === 'erosional' ? waveAlong(across) : polyline(across)}
          stroke={ink.ink}
          strokeWidth={sign === 'erosional' ? LINE.bold : LINE.edge}
          strokeLinecap="round"
          strokeDasharray={sign === 'erosional' ? undefined : tieDashes(sign)}
          fill="none"
        />
      );
  }
}
