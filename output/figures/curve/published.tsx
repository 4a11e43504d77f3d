/** Points of the literature: thin crosses, so that however many there are the campaign’s own boxes are seen before them. */
import type { PublishedPointResult, Results } from '@stillstand/campaign/results';
import { nameInTrace, sitesOfCurve } from '@stillstand/campaign/results';
import { horizontal, type PointPlace, useInk, vertical, wave } from '@stillstand/output/drawing';

/** Line of a cross, points. */
const THIN = 0.5;

/** Those that are drawn with the curve looked at: of its sites, and those of no site with the curve of the report. */
export const publishedBeside = (results: Results): readonly PublishedPointResult[] =>
  results.curves.length < 2
    ? results.published
    : results.published.filter(({ site }) =>
        site === null ? nameInTrace(results) === null : sitesOfCurve(results).includes(site),
      );

export function PublishedMark({ kind, at }: { kind: PublishedPointResult['kind']; at: PointPlace }) {
  const ink = useInk();
  const [x1, x2] = [Math.min(at.x1, at.x2), Math.max(at.x1, at.x2)];
  const d =
    kind === 'index'
      ? horizontal(x1, x2, at.y) + vertical(at.x, at.y - at.spread, at.y + at.spread)
      : kind === 'terrestrial'
        ? horizontal(x1, x2, at.y) + vertical(at.x, at.y, at.y + at.spread)
        : wave(x1, x2, at.y, 2.2, 0.7) + vertical(at.x, at.y - at.spread, at.y);
  return <path d={d} fill="none" stroke={ink.ink2} strokeWidth={THIN} />;
}
