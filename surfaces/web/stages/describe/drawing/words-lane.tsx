/** Sediment and words of every layer, bracketed to where it lies; each chooses its layer. */
import {
  firstLines,
  LINE,
  placeAlong,
  SIZE,
  shortened,
  Text,
  useInk,
  wrapped,
} from '@stillstand/output/drawing';
import type { Drawn } from './drawn.ts';
import { type Frame, HEAD } from './lanes.ts';
import { Pad } from './pad.tsx';

const LEADING = 8.4;

export function WordsLane({
  frame,
  drawn,
  chosen,
  onChoose,
}: {
  frame: Frame;
  drawn: readonly Drawn[];
  chosen: string | null;
  onChoose: (id: string) => void;
}) {
  const ink = useInk();
  const [left, right] = frame.lanes.words;
  const x = left + (right - left > 60 ? 9 : 6);
  const room = right - x;
  const texts = drawn.map((d) => ({
    name: wrapped(`${d.layer.label} ${d.sediment.name}`.trim(), room, { weight: 600 }),
    words: room < 45 ? [] : wrapped(wordsOf(d), room),
  }));
  const height = frame.bottom - HEAD;
  const size =
    (lines: number) =>
    (t: (typeof texts)[number]): number =>
      (t.name.length + Math.min(lines, t.words.length)) * LEADING + 3;
  const total = (lines: number): number => texts.reduce((sum, t) => sum + size(lines)(t), 0);
  const lines = [4, 3, 2, 1, 0].find((n) => total(n) <= height) ?? 0;
  // then each name has one line, shortened; smaller only where even those have no room
  const isCrowded = total(lines) > height;
  const oneLine = LEADING + 3;
  const isSmall = isCrowded && texts.length * oneLine > height;
  const places = placeAlong(
    texts.map((t, i) => ({
      at: (drawn[i]!.y1 + drawn[i]!.y2) / 2,
      size: isCrowded ? oneLine : size(lines)(t),
    })),
    HEAD - 3,
    frame.bottom + 4,
  );
  return (
    <g>
      {drawn.map((d, i) => {
        const text = texts[i]!;
        const name = isCrowded ? [shortened(text.name.join(' '), room, { weight: 600 })] : text.name;
        const all = [...name, ...firstLines(text.words, isCrowded ? 0 : lines, room)];
        const tall = all.length * LEADING;
        const top = places[i]! - tall / 2;
        const [y1, y2] = [Math.max(HEAD, d.y1), Math.min(frame.bottom, d.y2)];
        const isChosen = d.layer.id === chosen;
        return (
          <g key={d.layer.id}>
            {isChosen ? (
              <path
                d={`M${left - 1} ${top - 1.5}H${right}V${top + tall + 1.5}H${left - 1}Z`}
                fill={ink.rule}
                fillOpacity={0.55}
              />
            ) : null}
            <path
              d={`M${left + 1} ${Math.min(y1 + 0.6, (y1 + y2) / 2)}V${Math.max(y2 - 0.6, (y1 + y2) / 2)}M${left + 1} ${(y1 + y2) / 2}L${x - 2} ${Math.max(top + 4, Math.min((y1 + y2) / 2, top + tall - 4))}`}
              stroke={ink.ink}
              strokeWidth={isChosen ? LINE.bold : LINE.fine}
              fill="none"
            />
            {all.map((line, j) => (
              <Text
                // biome-ignore lint/suspicious/noArrayIndexKey: lines of one text
                key={j}
                x={x}
                y={top + j * LEADING + 6.4}
                size={isSmall ? SIZE.small : SIZE.text}
                weight={j < name.length ? 600 : 400}
                voice={j < name.length ? 'ink' : 'ink2'}
              >
                {shortened(line, room, j < name.length ? { weight: 600 } : {})}
              </Text>
            ))}
            <Pad
              name={`Unit ${d.layer.label}, ${d.sediment.name}`}
              isPressed={isChosen}
              x={left - 1}
              y={top - 1.5}
              width={right - left + 1}
              height={tall + 3}
              onPress={() => onChoose(d.layer.id)}
            />
          </g>
        );
      })}
    </g>
  );
}

const sentence = (text: string | undefined): string => {
  const tidy = (text ?? '')
    .trim()
    .replaceAll(';', ', ')
    .replace(/[.;,]$/, '');
  return tidy === '' ? '' : `${tidy[0]!.toUpperCase()}${tidy.slice(1)}.`;
};

function wordsOf(d: Drawn): string {
  const cells = d.layer.pieces[0]!.row.cells;
  return [cells['colour'], cells['note'], cells['organic'], cells['environment']]
    .map(sentence)
    .filter(Boolean)
    .join(' ');
}
