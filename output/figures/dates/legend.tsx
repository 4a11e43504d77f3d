/** The kinds of calibrated ages that a figure has, each with its swatch. */
import type { DateResult } from '@stillstand/campaign/results';
import { AgeSwatch, inRows, isMarine, shortened, Text, textWidth } from '@stillstand/output/drawing';

interface LegendItem {
  kind: 'land' | 'marine' | 'rejected';
  words: string;
  x: number;
  row: number;
}

export const LEGEND_ROW = 12;

/** As many as there are in the figure, in rows no wider than `width`. */
export function ageLegend(dates: readonly DateResult[], width: number, rejected = 'rejected'): LegendItem[] {
  const kinds: (Pick<LegendItem, 'kind' | 'words'> & { shown: boolean })[] = [
    {
      kind: 'land',
      words: 'terrestrial carbon or another method, straight base',
      shown: dates.some((d) => !isMarine(d) && d.status === 'accepted'),
    },
    {
      kind: 'marine',
      words: 'marine carbon, ruled on a wave',
      shown: dates.some((d) => isMarine(d) && d.status === 'accepted'),
    },
    { kind: 'rejected', words: rejected, shown: dates.some((d) => d.status === 'rejected') },
  ];
  return wordsInRows(
    kinds.filter((k) => k.shown).map(({ kind, words }) => ({ kind, words })),
    width,
  );
}

/** Words with a swatch before each, one after another in rows no wider than `width`. */
export const wordsInRows = <Kind,>(
  items: readonly { kind: Kind; words: string }[],
  width: number,
): { kind: Kind; words: string; x: number; row: number }[] =>
  inRows(items, width, 26, ({ words }) => 20 + textWidth(words)).map(({ item, x, row }) => ({
    ...item,
    x,
    row,
  }));

/** Below the base of the first row, points. */
export const ageLegendHeight = (items: readonly { row: number }[]): number =>
  (items.at(-1)?.row ?? 0) * LEGEND_ROW;

/** `y` is the base of the first row. */
export function AgeLegend({ items, y, width }: { items: readonly LegendItem[]; y: number; width: number }) {
  return items.map((item) => (
    <g key={item.kind}>
      <AgeSwatch x={item.x + 2} y={y + item.row * LEGEND_ROW} kind={item.kind} />
      <Text x={item.x + 20} y={y + 1 + item.row * LEGEND_ROW}>
        {shortened(item.words, width - 20)}
      </Text>
    </g>
  ));
}
