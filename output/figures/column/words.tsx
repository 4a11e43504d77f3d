import type { UnitResult } from '@stillstand/campaign/results';
import {
  firstLines,
  LINE,
  placeAlong,
  polyline,
  type Scale,
  SIZE,
  shortened,
  Text,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import type { Column } from './lanes.ts';

/** Sediment and description of every unit, bracketed to where it lies. */
export function Words({
  column,
  depth,
  x,
  width,
  bottom,
}: {
  column: Column;
  depth: Scale;
  x: number;
  width: number;
  bottom: number;
}) {
  const ink = useInk();
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
              <Text
                key={y}
                x={x}
                y={y}
                size={crowded ? SIZE.small : SIZE.text}
                weight={strong ? 600 : 400}
                voice={strong ? 'ink' : 'ink2'}
              >
                {words}
              </Text>
            ))}
          </g>
        );
      })}
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
