/** One legend of all panels: what the ground is made of, what stands on map and section, then the marks of sea level. */
import type { Results } from '@stillstand/campaign/results';
import {
  box,
  inRows,
  LINE,
  Pattern,
  type Sediment,
  shortened,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type LegendEntry, LegendItem, SWATCH, wordsOf } from '../curve/legend.tsx';
import type { MapLayout } from '../map/layout.ts';
import { HoleMark, SectionLine } from '../map/map.tsx';
import type { PlacedSection } from '../section/drawing.tsx';
import { type LineSign, SignSwatch, signsOfSection } from '../section/line-key.tsx';
import { sedimentsOf } from '../section/sediment-key.tsx';

type Sign = 'hole' | 'given_up' | 'line' | LineSign;

const WORDS: Record<Sign, string> = {
  hole: 'hole',
  given_up: 'hole lost or abandoned',
  line: 'line of the section',
  dated: 'dated sample',
  dated_rejected: 'dated sample, rejected',
  certain: 'contact, certain',
  probable: 'contact, probable',
  possible: 'contact, doubtful',
  erosional: 'contact, erosional',
  time: 'time line',
};

type Entry =
  | { of: 'sediment'; sediment: Sediment; words: string }
  | { of: 'sign'; sign: Sign; words: string }
  | { of: 'curve'; item: LegendEntry; words: string };

interface PlacedEntry {
  entry: Entry;
  x: number;
  /** Middle, points. */
  y: number;
}

export interface LegendLayout {
  entries: PlacedEntry[];
  height: number;
}

const ROW = 11.6;
const GAP = 16;
/** Between the groups, points. */
const APART = 3;

/** Each group from the left again, in rows no wider than `width`. */
export function plateLegend(
  results: Results,
  {
    map,
    section,
    curve,
  }: { map: MapLayout | null; section: PlacedSection | null; curve: readonly LegendEntry[] },
  width: number,
): LegendLayout {
  const signs = signsOf(results, map, section).map(
    (sign): Entry => ({ of: 'sign', sign, words: WORDS[sign] }),
  );
  const groups: Entry[][] = [
    sedimentsOf(section?.layout.stands ?? []).map((sediment) => ({
      of: 'sediment',
      sediment,
      words: shortened(sediment.name, width - SWATCH - 6),
    })),
    signs,
    curve.map((item) => ({ of: 'curve', item, words: wordsOf(item) })),
  ];
  const entries: PlacedEntry[] = [];
  let y = 0;
  for (const group of groups) {
    if (group.length === 0) continue;
    if (y > 0) y += APART;
    const placed = inRows(group, width, GAP, ({ words }) => SWATCH + 6 + textWidth(words));
    for (const { item, x, row } of placed) entries.push({ entry: item, x, y: y + row * ROW + ROW / 2 });
    y += (placed.at(-1)!.row + 1) * ROW;
  }
  return { entries, height: y };
}

function signsOf(results: Results, map: MapLayout | null, section: PlacedSection | null): Sign[] {
  const shown: [Sign, boolean][] = [
    ['hole', map !== null],
    ['given_up', map?.holes.some(({ hole }) => hole.kind === 'given_up') ?? false],
    ['line', map?.line != null],
  ];
  const ofSection = section === null ? [] : signsOfSection(section, results.correlations);
  return [...shown.filter(([, is]) => is).map(([sign]) => sign), ...ofSection];
}

export function PlateLegend({ legend }: { legend: LegendLayout }) {
  return (
    <g id="plate-legend">
      {legend.entries.map(({ entry, x, y }, i) =>
        entry.of === 'curve' ? (
          <LegendItem key={entry.words} item={entry.item} x={x} y={y} id="plate" />
        ) : (
          <g key={entry.words}>
            {entry.of === 'sediment' ? (
              <Tint sediment={entry.sediment} x={x} y={y} n={i} />
            ) : (
              <PlateSign sign={entry.sign} x={x} y={y} />
            )}
            <Text x={x + SWATCH + 6} y={y + 2.4}>
              {entry.words}
            </Text>
          </g>
        ),
      )}
    </g>
  );
}

function Tint({ sediment, x, y, n }: { sediment: Sediment; x: number; y: number; n: number }) {
  const ink = useInk();
  const at = { x1: x, y1: y - 4.4, x2: x + SWATCH, y2: y + 4.4 };
  return (
    <g>
      <Pattern sediment={sediment} at={at} id={`plate-legend-${n + 1}`} seed={900 + n} />
      <path d={box(at.x1, at.y1, at.x2, at.y2)} fill="none" stroke={ink.ink} strokeWidth={LINE.fine} />
    </g>
  );
}

function PlateSign({ sign, x, y }: { sign: Sign; x: number; y: number }) {
  if (sign === 'hole' || sign === 'given_up')
    return <HoleMark x={x + SWATCH / 2} y={y} kind={sign === 'given_up' ? 'given_up' : 'drilled'} />;
  if (sign === 'line')
    return (
      <SectionLine
        points={[
          [x, y],
          [x + SWATCH, y],
        ]}
      />
    );
  return <SignSwatch sign={sign} x={x} y={y} width={SWATCH} />;
}
