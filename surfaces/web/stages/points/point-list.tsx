/** All points of the campaign: how each stands, in one line. */
import type { PointResult } from '@stillstand/campaign/results';
import { SmallMark } from '../../claim/index.ts';
import { printed, signed } from '../../parts/index.ts';

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
  return (
    <ul className="point-list">
      {points.map(({ label, result }) => (
        <li key={label}>
          <button
            type="button"
            aria-current={label === current ? 'true' : undefined}
            className={result?.status === 'rejected' ? 'rejected' : undefined}
            onClick={() => onChoose(label)}
          >
            {result === null ? <span className="no-mark" /> : <SmallMark point={result} />}
            <span className="label">{label}</span>
            <span className="value">
              {result === null ? (
                isComputed ? (
                  'not made'
                ) : (
                  ''
                )
              ) : (
                <>
                  {RELATION[result.kind]}
                  {signed(result.rsl_m, 1)}
                </>
              )}
            </span>
            <span className="age">{result === null ? '' : printed(result.age.median_cal_bp, 0)}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

const RELATION = { index: '', terrestrial: 'below ', marine: 'above ' } as const;
