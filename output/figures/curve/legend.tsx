import {
  AgeSwatch,
  box,
  covered,
  DOTTED,
  Hatching,
  horizontal,
  LINE,
  PointMark,
  polyline,
  type Rect,
  SiteMark,
  shortened,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type DatesAtFoot, MedianSwatch } from './dates-at-foot.tsx';
import type { Panels } from './panels.ts';
import { PublishedMark } from './published.tsx';
import { namesOfMarks } from './site-marks.ts';

/** The mark of a site, by its number and name. */
type SiteEntry = `site:${number}:${string}`;

export type LegendEntry = Plain | SiteEntry;

type Plain =
  | 'basal'
  | 'intercalated'
  | 'terrestrial'
  | 'marine'
  | 'rejected'
  | 'published'
  | 'gauge'
  | 'curve'
  | 'not_converged'
  | 'date'
  | 'median'
  | 'shift';

const WORDS: Record<Plain, string> = {
  basal: 'index point, basal',
  intercalated: 'index point, intercalated',
  terrestrial: 'terrestrial limiting: sea was below',
  marine: 'marine limiting: sea was above',
  rejected: 'rejected, shown',
  published: 'published, in no curve, ±2σ',
  gauge: 'gauge: means of about 19 yr, ±2σ',
  curve: 'median, 68 % and 95 %',
  not_converged: 'not converged: do not use',
  date: 'density of one date',
  median: 'median of one date; open: marine',
  shift: 'age moved by the curve, over 1 sd',
};
/** Of the name of a site, points. */
const SITE_NAME = 120;

const isSite = (item: LegendEntry): item is SiteEntry => item.startsWith('site:');
const markOf = (item: SiteEntry): number => Number(item.split(':')[1]);
export const wordsOf = (item: LegendEntry): string =>
  isSite(item) ? shortened(item.slice(item.indexOf(':', 5) + 1), SITE_NAME) : WORDS[item];

const ROW = 11.5;
export const SWATCH = 28;

export function legendItems(panels: Panels, dates: DatesAtFoot, shifted: boolean): LegendEntry[] {
  const has = (test: (p: Panels['points'][number]['point']) => boolean): boolean =>
    panels.points.some(({ point }) => test(point));
  const used = (kind: string) => has((p) => p.kind === kind && p.status === 'accepted');
  const basal = (p: { position: string | null }): boolean =>
    p.position === 'basal' || p.position === 'base_of_basal';
  const converged = panels.curve?.diagnostics.converged ?? true;
  const sites = namesOfMarks(panels.sites).map((name, n): [LegendEntry, boolean] => [
    `site:${n}:${name}`,
    true,
  ]);
  const items: [LegendEntry, boolean][] = [
    ['basal', has((p) => p.kind === 'index' && p.status === 'accepted' && basal(p))],
    ['intercalated', has((p) => p.kind === 'index' && p.status === 'accepted' && !basal(p))],
    ['terrestrial', used('terrestrial')],
    ['marine', used('marine')],
    ['rejected', has((p) => p.status === 'rejected')],
    ...sites,
    ['published', panels.published.length > 0],
    ['gauge', panels.gauges.length > 0],
    ['curve', panels.curve !== null && converged],
    ['not_converged', !converged],
    ['date', dates.kind === 'densities' && dates.rows.length > 0],
    ['median', dates.kind === 'medians'],
    ['shift', shifted],
  ];
  return items.filter(([, shown]) => shown).map(([item]) => item);
}

const size = (items: readonly LegendEntry[]) => ({
  width: SWATCH + 6 + Math.max(0, ...items.map((item) => textWidth(wordsOf(item)))),
  height: items.length * ROW,
});

/** The corner of the frame that covers least; null where every corner would hide something. */
export function legendPlace(
  items: readonly LegendEntry[],
  frame: Rect,
  foot: number,
  taken: readonly Rect[],
): Rect | null {
  const { width, height } = size(items);
  const xs = [frame.x2 - width - 12, frame.x1 + 10];
  const ys = [frame.y2 - foot - height - 6, frame.y1 + 16];
  const corners = ys.flatMap((y) => xs.map((x) => ({ x1: x, y1: y, x2: x + width, y2: y + height })));
  return corners.find((corner) => covered(corner, taken) === 0) ?? null;
}

/** Rows needed where the legend lies under the panels instead. */
export function legendRows(items: readonly LegendEntry[], width: number): LegendEntry[][] {
  const rows: LegendEntry[][] = [];
  let used = 0;
  for (const item of items) {
    const room = SWATCH + 22 + textWidth(wordsOf(item));
    if (rows.length === 0 || used + room > width) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)!.push(item);
    used += room;
  }
  return rows;
}

export function CornerLegend({ items, at, id }: { items: readonly LegendEntry[]; at: Rect; id: string }) {
  return (
    <g id={`${id}-legend`}>
      {items.map((item, i) => (
        <LegendItem key={item} item={item} x={at.x1} y={at.y1 + (i + 0.5) * ROW} id={id} />
      ))}
    </g>
  );
}

export function FootLegend({
  rows,
  x,
  y,
  id,
}: {
  rows: readonly (readonly LegendEntry[])[];
  x: number;
  y: number;
  id: string;
}) {
  const placed = rows.flatMap((row, j) => {
    let at = x;
    return row.map((item) => {
      const place = { item, x: at, y: y + j * (ROW + 1) };
      at += SWATCH + 22 + textWidth(wordsOf(item));
      return place;
    });
  });
  return (
    <g id={`${id}-legend`}>
      {placed.map((place) => (
        <LegendItem key={place.item} {...place} id={id} />
      ))}
    </g>
  );
}

interface LegendItemProps {
  item: LegendEntry;
  x: number;
  y: number;
  id: string;
}

export function LegendItem({ item, x, y, id }: LegendItemProps) {
  return (
    <g>
      <Swatch item={item} x={x} y={y} id={id} />
      <Text x={x + SWATCH + 6} y={y + 2.4}>
        {wordsOf(item)}
      </Text>
    </g>
  );
}

function Swatch({ item, x, y, id }: LegendItemProps) {
  const ink = useInk();
  const middle = x + SWATCH / 2;
  const at = { x1: middle - 4, x2: middle + 4, x: middle, y, spread: 3.6 };
  const wide = { ...at, x1: middle - 8, x2: middle + 8 };
  if (isSite(item)) return <SiteMark n={markOf(item)} x={middle} y={y} />;
  switch (item) {
    case 'basal':
      return <PointMark point={{ kind: 'index', position: 'basal', status: 'accepted' }} at={at} />;
    case 'intercalated':
      return <PointMark point={{ kind: 'index', position: 'intercalated', status: 'accepted' }} at={at} />;
    case 'rejected':
      return <PointMark point={{ kind: 'index', position: null, status: 'rejected' }} at={at} />;
    case 'terrestrial':
      return (
        <PointMark
          point={{ kind: 'terrestrial', position: null, status: 'accepted' }}
          at={{ ...wide, y: y - 2.5, spread: 5.5 }}
        />
      );
    case 'marine':
      return (
        <PointMark
          point={{ kind: 'marine', position: null, status: 'accepted' }}
          at={{ ...wide, y: y + 2.5, spread: 5.5 }}
        />
      );
    case 'published':
      return <PublishedMark kind="index" at={wide} />;
    case 'gauge':
      return <path d={box(middle - 8, y - 1.5, middle + 8, y + 1.5)} fill={ink.sea} />;
    case 'curve':
      return (
        <g>
          <path d={box(x, y - 4, x + SWATCH, y + 4)} fill={ink.seaWash} />
          <path d={box(x, y - 2, x + SWATCH, y + 2)} fill={ink.seaWash2} />
          <g fill="none" stroke={ink.sea}>
            <path
              d={horizontal(x, x + SWATCH, y - 4) + horizontal(x, x + SWATCH, y + 4)}
              strokeWidth={LINE.edge}
              {...DOTTED}
            />
            <path
              d={horizontal(x, x + SWATCH, y - 2) + horizontal(x, x + SWATCH, y + 2)}
              strokeWidth={LINE.fine}
            />
            <path d={horizontal(x, x + SWATCH, y)} strokeWidth={1.2} />
          </g>
        </g>
      );
    case 'not_converged':
      return (
        <g>
          <Hatching
            id={`${id}-legend-hatching`}
            d={box(x, y - 4, x + SWATCH, y + 4)}
            x1={x}
            y1={y - 4}
            x2={x + SWATCH}
            y2={y + 4}
          />
          <path d={horizontal(x, x + SWATCH, y)} stroke={ink.sea} strokeWidth={1.2} fill="none" />
        </g>
      );
    case 'date':
      return <AgeSwatch x={middle - 6.5} y={y + 3} kind="land" />;
    case 'median':
      return <MedianSwatch x={middle} y={y} />;
    case 'shift':
      return <path d={arrow(middle - 7, middle + 7, y)} stroke={ink.ink} strokeWidth={0.7} fill="none" />;
  }
}

/** From where an age was to where the curve has it. */
export function arrow(x1: number, x2: number, y: number): string {
  const back = x2 > x1 ? -2.2 : 2.2;
  return `${polyline([
    [x1, y],
    [x2, y],
  ])}${polyline([
    [x2 + back, y - 1.5],
    [x2, y],
    [x2 + back, y + 1.5],
  ])}`;
}
