/** One legend of all panels: what the ground is made of, what stands on map and section, then the marks of sea level. */
import type { Results } from '@stillstand/campaign/results';
import {
  box,
  LINE,
  Lozenge,
  Pattern,
  polyline,
  type Sediment,
  shortened,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type LegendEntry, LegendItem, SWATCH, wordsOf } from '../curve/legend.tsx';
import type { MapLayout } from '../map/layout.ts';
import { HoleMark, SectionLine } from '../map/map.tsx';
import type { Stand } from '../section/layout.ts';
import { sedimentsOf } from '../section/sediment-key.tsx';
import { tieDashes } from '../section/ties.tsx';

type Sign = 'hole' | 'given_up' | 'line' | 'dated' | 'dated_rejected' | 'certain' | 'probable' | 'possible';

const WORDS: Record<Sign, string> = {
  hole: 'hole',
  given_up: 'hole lost or abandoned',
  line: 'line of the section',
  dated: 'dated sample',
  dated_rejected: 'dated sample, rejected',
  certain: 'correlation, certain',
  probable: 'correlation, probable',
  possible: 'correlation, possible',
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
  { map, stands, curve }: { map: MapLayout | null; stands: readonly Stand[]; curve: readonly LegendEntry[] },
  width: number,
): LegendLayout {
  const signs = signsOf(results, map, stands).map(
    (sign): Entry => ({ of: 'sign', sign, words: WORDS[sign] }),
  );
  const groups: Entry[][] = [
    sedimentsOf(stands).map((sediment) => ({
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
    let x = 0;
    for (const entry of group) {
      const room = SWATCH + 6 + textWidth(entry.words);
      if (x > 0 && x + room > width) {
        x = 0;
        y += ROW;
      }
      entries.push({ entry, x, y: y + ROW / 2 });
      x += room + GAP;
    }
    y += ROW;
  }
  return { entries, height: y };
}

function signsOf(results: Results, map: MapLayout | null, stands: readonly Stand[]): Sign[] {
  const dates = stands.flatMap((stand) => stand.dates.map(({ date }) => date));
  const hung = new Set(stands.map(({ hole }) => hole.hole));
  const ties = results.correlations.filter(({ hole_a, hole_b }) => hung.has(hole_a) && hung.has(hole_b));
  const tied = (sign: 'certain' | 'probable' | 'possible') =>
    ties.some(({ confidence }) => tieDashes(confidence) === tieDashes(sign));
  const shown: [Sign, boolean][] = [
    ['hole', map !== null],
    ['given_up', map?.holes.some(({ hole }) => hole.kind === 'given_up') ?? false],
    ['line', map?.line != null],
    ['dated', dates.some(({ status }) => status === 'accepted')],
    ['dated_rejected', dates.some(({ status }) => status === 'rejected')],
    ['certain', tied('certain')],
    ['probable', tied('probable')],
    ['possible', tied('possible')],
  ];
  return shown.filter(([, is]) => is).map(([sign]) => sign);
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
              <SignSwatch sign={entry.sign} x={x} y={y} />
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

function SignSwatch({ sign, x, y }: { sign: Sign; x: number; y: number }) {
  const ink = useInk();
  const middle = x + SWATCH / 2;
  const across = [
    [x, y],
    [x + SWATCH, y],
  ] as const;
  switch (sign) {
    case 'hole':
    case 'given_up':
      return <HoleMark x={middle} y={y} kind={sign === 'given_up' ? 'given_up' : 'drilled'} />;
    case 'line':
      return <SectionLine points={across} />;
    case 'dated':
    case 'dated_rejected':
      return <Lozenge x={middle} y={y} filled={sign === 'dated'} size={1.9} />;
    default:
      return (
        <path
          d={polyline(across)}
          stroke={ink.ink2}
          strokeWidth={LINE.edge}
          strokeLinecap="round"
          strokeDasharray={tieDashes(sign)}
          fill="none"
        />
      );
  }
}
