import type { UnitResult } from '@stillstand/campaign/results';
import {
  firstLines,
  LINE,
  placeAlong,
  polyline,
  type Scale,
  Span,
  shortened,
  Text,
  textWidth,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import { type Column, grainWidth } from './lanes.ts';

/** Sediment and description of every unit, bracketed to where it lies. */
export function Words({
  column,
  depth,
  width,
  bottom,
}: {
  column: Column;
  depth: Scale;
  width: number;
  bottom: number;
}) {
  const ink = useInk();
  const x = column.lane.words;
  if (x === null) return null;
  const texts = column.units.map(({ unit, sediment }) => ({
    name: wrapped(sediment.name, width, { weight: 600 }),
    words: wrapped(unitWords(unit), width),
  }));
  const room = bottom + 6 - (depth(0) - 4);
  const size =
    (lines: number) =>
    (t: (typeof texts)[number]): number =>
      (t.name.length + Math.min(lines, t.words.length)) * 8.4 + 2.6;
  const lines = [4, 3, 2, 1, 0].find((n) => texts.reduce((sum, t) => sum + size(n)(t), 0) <= room) ?? 0;
  const at = column.units.map(({ unit }) => ({
    top: depth(unit.depth_top_m.value),
    bottom: depth(unit.depth_bottom_m.value),
  }));
  const places = placeAlong(
    texts.map((t, i) => ({ at: (at[i]!.top + at[i]!.bottom) / 2, size: size(lines)(t) })),
    depth(0) - 4,
    bottom + 6,
  );
  const crowded = texts.reduce((sum, t) => sum + size(lines)(t), 0) > room;
  return (
    <g>
      {texts.map((text, i) => {
        const { unit } = column.units[i]!;
        const { top, bottom: base } = at[i]!;
        const height = size(lines)(text);
        const first = places[i]! - height / 2 + 7.4;
        const name = crowded ? [shortened(text.name.join(' '), width, { weight: 600 })] : text.name;
        const all = [...name, ...firstLines(text.words, lines, width)].map((words, j) => ({
          words,
          y: crowded ? places[i]! + 2.2 : first + j * 8.4,
          strong: j < name.length,
        }));
        const middle = (top + base) / 2;
        const to =
          height > base - top
            ? first - 2.3
            : Math.max(first - 2.3, Math.min(middle, first - 2.3 + (all.length - 1) * 8.4));
        return (
          <g key={unit.row_id}>
            <path
              d={`${vertical(x - 9, Math.min(top + 0.6, middle), Math.max(base - 0.6, middle))}${polyline([
                [x - 9, middle],
                [x - 3, crowded ? places[i]! : to],
              ])}`}
              fill="none"
              stroke={ink.ink}
              strokeWidth={LINE.fine}
            />
            {all.map(({ words, y, strong }) => (
              <Text key={y} x={x} y={y} weight={strong ? 600 : 400} voice={strong ? 'ink' : 'ink2'}>
                {words}
              </Text>
            ))}
          </g>
        );
      })}
    </g>
  );
}

/** Between two columns of words below the figure, points. */
const BELOW_GAP = 14;
const NUMBER_ROOM = 13;

export interface WordsBelow {
  lines: { number: string; name: string; words: string; x: number; y: number }[];
  height: number;
}

/** The words below the figure, each unit by its number from the top, in two columns where they fit. */
export function wordsBelow(column: Column, inner: number): WordsBelow {
  if (column.lane.words !== null) return { lines: [], height: 0 };
  const abreast = inner >= 330 ? 2 : 1;
  const width = (inner - BELOW_GAP * (abreast - 1)) / abreast;
  const each = Math.ceil(column.units.length / abreast);
  const lines: WordsBelow['lines'] = [];
  let height = 0;
  let y = 0;
  for (const [i, { unit, sediment }] of column.units.entries()) {
    if (i % each === 0) y = 0;
    const x = Math.floor(i / each) * (width + BELOW_GAP);
    const name = `${sediment.name}. `;
    // The name is bold: the words are measured with its width before them.
    const room = width - NUMBER_ROOM;
    const before = textWidth(name, { weight: 600 });
    const [first = '', ...more] = wrappedAfter(unitWords(unit), before, room);
    lines.push({ number: `${i + 1}`, name, words: first, x, y });
    y += LEADING;
    for (const words of more) {
      lines.push({ number: '', name: '', words, x, y });
      y += LEADING;
    }
    height = Math.max(height, y);
  }
  return { lines, height };
}

const LEADING = 8.8;

/** Lines of which the first has only what `before` leaves of the room. */
function wrappedAfter(text: string, before: number, room: number): string[] {
  const words = text.split(' ');
  let count = words.length;
  while (count > 0 && before + textWidth(words.slice(0, count).join(' ')) > room) count--;
  const rest = words.slice(count).join(' ');
  return [words.slice(0, count).join(' '), ...wrapped(rest, room)];
}

export function WordsBelowColumn({ below, y }: { below: WordsBelow; y: number }) {
  return (
    <g>
      {below.lines.map((line) => (
        <g key={`${line.x} ${line.y}`}>
          {line.number === '' ? null : (
            <Text x={line.x + NUMBER_ROOM - 4} y={y + line.y} anchor="end" voice="ink2">
              {line.number}
            </Text>
          )}
          <Text x={line.x + NUMBER_ROOM} y={y + line.y} voice="ink2">
            {line.name === '' ? null : (
              <Span weight={600} voice="ink">
                {line.name}
              </Span>
            )}
            {line.words}
          </Text>
        </g>
      ))}
    </g>
  );
}

/** Numbers of the units right of the column, where their words are below. */
export function UnitNumbers({ column, depth }: { column: Column; depth: Scale }) {
  const { lane } = column;
  if (lane.words !== null) return null;
  const places = placeAlong(
    column.units.map(({ unit }) => ({
      at: (depth(unit.depth_top_m.value) + depth(unit.depth_bottom_m.value)) / 2,
      size: 7.6,
    })),
    depth(0) - 2,
    depth(column.bottom_m) + 6,
  );
  return (
    <g>
      {column.units.map(({ unit, sediment }, i) => (
        <Text
          key={unit.row_id}
          x={lane.column + grainWidth(lane, sediment.grain) + 2.5}
          y={places[i]! + 2.4}
          voice="ink2"
        >
          {i + 1}
        </Text>
      ))}
    </g>
  );
}

function unitWords(unit: UnitResult): string {
  const sentence = (text: string | null): string => {
    const tidy = (text ?? '').trim();
    return tidy === '' ? '' : `${tidy[0]!.toUpperCase()}${tidy.slice(1).replace(/[.;,]$/, '')}.`;
  };
  return [unit.colour, unit.description, unit.environment]
    .map(sentence)
    .filter((s) => s !== '')
    .join(' ');
}
