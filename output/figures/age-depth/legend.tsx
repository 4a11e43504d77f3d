/** What the drawing of ages against depth shows, each with its swatch; only what there is. */
import {
  AgeSwatch,
  box,
  CautionMark,
  DASHED,
  horizontal,
  isMarine,
  LINE,
  shortened,
  Text,
  useInk,
  wave,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { LEGEND_ROW, wordsInRows } from '../dates/legend.tsx';
import { Edges } from './band.tsx';
import type { AgeDepthLayout } from './layout.ts';

type Kind =
  | 'land'
  | 'marine'
  | 'in doubt'
  | 'aside'
  | 'rejected'
  | 'history'
  | 'likelier'
  | 'other'
  | 'former'
  | 'hiatus';

/** Of a swatch, points. */
const WIDE = 13;

/** In rows no wider than the drawing. */
export function ageDepthLegend({ dates, history, isFormer, before, hiatuses, width }: AgeDepthLayout) {
  const isThere = (state: string): boolean => dates.some((d) => d.state === state);
  const inPlace = dates.filter((d) => d.state === 'in place').map(({ date }) => isMarine(date));
  const isNew = history !== null && !isFormer;
  const [likelier, other] = history?.modes ?? [];
  const percent = (of: { probability: number } | undefined): string =>
    `${printed(100 * (of?.probability ?? 0), 0)} %`;
  const items: [Kind, string, boolean][] = [
    ['land', 'terrestrial carbon or another method', inPlace.includes(false)],
    ['marine', 'marine carbon', inPlace.includes(true)],
    ['in doubt', 'in doubt: more likely an outlier than not', isThere('in doubt')],
    ['aside', 'not used here: a maximum or minimum age', isThere('aside')],
    ['rejected', 'rejected, not used', isThere('rejected')],
    ['history', 'all dates together: median, 68 and 95 %', isNew && likelier === undefined],
    ['likelier', `the likelier history, ${percent(likelier)}`, isNew && likelier !== undefined],
    ['other', `the other history, ${percent(other)}`, isNew && other !== undefined],
    ['former', 'of the former dates', isFormer || before !== null],
    ['hiatus', 'erosional contact', hiatuses.length > 0],
  ];
  return wordsInRows(
    items.filter(([, , isShown]) => isShown).map(([kind, words]) => ({ kind, words })),
    width,
  );
}

export function AgeDepthLegend({
  items,
  y,
  width,
}: {
  items: ReturnType<typeof ageDepthLegend>;
  y: number;
  width: number;
}) {
  return items.map(({ kind, words, x, row }) => (
    <g key={kind}>
      <Swatch kind={kind} x={x + 2} y={y + row * LEGEND_ROW} />
      <Text x={x + 20} y={y + 1 + row * LEGEND_ROW}>
        {shortened(words, width - 20)}
      </Text>
    </g>
  ));
}

function Swatch({ kind, x, y }: { kind: Kind; x: number; y: number }) {
  const ink = useInk();
  const [x2, middle] = [x + WIDE, y - 3];
  switch (kind) {
    case 'land':
    case 'marine':
    case 'rejected':
      return <AgeSwatch x={x} y={y} kind={kind} />;
    case 'aside':
      return <AgeSwatch x={x} y={y} kind="hollow" />;
    case 'in doubt':
      return (
        <g>
          <AgeSwatch x={x} y={y} kind="hollow" />
          <CautionMark x={x + WIDE} y={y - 2} />
        </g>
      );
    case 'history':
      return (
        <g fill="none">
          <path d={box(x, y - 7, x2, y + 1)} fill={ink.leaf} />
          <path d={box(x, y - 5, x2, y - 1)} fill={ink.rule} />
          <Edges d={horizontal(x, x2, y - 7) + horizontal(x, x2, y + 1)} fill="none" />
          <path d={horizontal(x, x2, middle)} stroke={ink.ink} strokeWidth={LINE.bold} />
        </g>
      );
    case 'likelier':
    case 'other':
      return (
        <path
          d={horizontal(x, x2, middle)}
          stroke={ink.ink}
          strokeWidth={LINE.bold}
          fill="none"
          {...(kind === 'other' ? DASHED : {})}
        />
      );
    case 'former':
      return (
        <path
          d={horizontal(x, x2, middle)}
          stroke={ink.line}
          strokeWidth={LINE.edge}
          fill="none"
          {...DASHED}
        />
      );
    case 'hiatus':
      return <path d={wave(x, x2, middle, 2.2, 0.7)} stroke={ink.ink2} strokeWidth={LINE.edge} fill="none" />;
  }
}
