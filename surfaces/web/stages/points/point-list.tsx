/** All points of the campaign, site by site where there are several: how each is placed, in one line. */
import type { PointResult } from '@stillstand/campaign/results';
import { memo, useEffect, useRef } from 'react';
import { SmallMark } from '../../claim/index.ts';
import { printed, signed } from '../../parts/index.ts';
import { listClass } from './find-point.ts';

export interface ListedPoint {
  label: string;
  /** Null while it is not made, or could not be. */
  result: PointResult | null;
}

export function PointList({
  points,
  current,
  isComputed,
  onChoose,
}: {
  points: readonly ListedPoint[];
  isComputed: boolean;
  current: string | null;
  onChoose: (label: string) => void;
}) {
  const list = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the current point is in the page only after it was drawn
  useEffect(() => {
    list.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }, [current]);
  const sites = [...Map.groupBy(points, ({ result }) => result?.site ?? null)];
  const className = listClass(points.map(({ label }) => label));
  return (
    <div ref={list}>
      {sites.map(([site, own]) => (
        <section key={site} className="of-site" aria-label={sites.length > 1 ? siteWords(site) : 'Points'}>
          {sites.length > 1 ? (
            <h3>
              {siteWords(site)} <span className="quiet">{own.length}</span>
            </h3>
          ) : null}
          <ul className={className}>
            {own.map(({ label, result }) => (
              <PointRow
                key={label}
                label={label}
                result={result}
                isComputed={isComputed}
                isCurrent={label === current}
                onChoose={onChoose}
              />
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

const siteWords = (site: string | null): string => site ?? 'No site yet';

const PointRow = memo(function PointRow({
  label,
  result,
  isComputed,
  isCurrent,
  onChoose,
}: ListedPoint & {
  isComputed: boolean;
  isCurrent: boolean;
  onChoose: (label: string) => void;
}) {
  return (
    <li>
      <button
        type="button"
        aria-current={isCurrent ? 'true' : undefined}
        className={result?.status === 'rejected' ? 'rejected' : undefined}
        onClick={() => onChoose(label)}
      >
        {result === null ? <span className="no-mark" /> : <SmallMark point={result} />}
        <span className="label">{label}</span>
        <span className="value">
          {result === null
            ? isComputed
              ? 'not made'
              : ''
            : `${RELATION[result.kind]}${signed(result.rsl_m, 1)}`}
        </span>
        <span className="age">{result === null ? '' : printed(result.age.median_cal_bp, 0)}</span>
      </button>
    </li>
  );
});

const RELATION = { index: '', terrestrial: 'below ', marine: 'above ' } as const;
