/** Points of the literature: thin crosses, so that however many there are the campaign’s own boxes are seen before them. */
import type { PublishedPointResult, Results } from '@stillstand/campaign/results';
import { nameInTrace, sitesOfCurve } from '@stillstand/campaign/results';
import { horizontal, type PointPlace, type Rect, useInk, vertical, wave } from '@stillstand/output/drawing';

/** Line of a cross, points. */
const THIN = 0.5;

/** Those that are drawn with the curve looked at: of its sites, and those of no site with the curve of the report. */
export const publishedBeside = (results: Results): readonly PublishedPointResult[] =>
  results.curves.length < 2
    ? results.published
    : results.published.filter(({ site }) =>
        site === null ? nameInTrace(results) === null : sitesOfCurve(results).includes(site),
      );

/** Ends of its two lines: across its ages, and upright over its height or from its bound to where the sea was. */
function arms(kind: PublishedPointResult['kind'], at: PointPlace) {
  return {
    x1: Math.min(at.x1, at.x2),
    x2: Math.max(at.x1, at.x2),
    y1: kind === 'terrestrial' ? at.y : at.y - at.spread,
    y2: kind === 'marine' ? at.y : at.y + at.spread,
  };
}

/** The room of its lines, points: between them a name may stand. */
export function publishedRects(kind: PublishedPointResult['kind'], at: PointPlace): Rect[] {
  const { x1, x2, y1, y2 } = arms(kind, at);
  return [
    { x1, x2, y1: at.y - 1, y2: at.y + 1 },
    { x1: at.x - 1, x2: at.x + 1, y1, y2 },
  ];
}

export function PublishedMark({ kind, at }: { kind: PublishedPointResult['kind']; at: PointPlace }) {
  const ink = useInk();
  const { x1, x2, y1, y2 } = arms(kind, at);
  const across = kind === 'marine' ? wave(x1, x2, at.y, 2.2, 0.7) : horizontal(x1, x2, at.y);
  return <path d={across + vertical(at.x, y1, y2)} fill="none" stroke={ink.ink2} strokeWidth={THIN} />;
}
