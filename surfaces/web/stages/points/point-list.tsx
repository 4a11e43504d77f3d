/** All points of the campaign: how each stands, in one line. */
import type { PointResult } from '@stillstand/campaign/results';
import { INKS, InkContext, PointMark } from '@stillstand/output/figures';
import { printed, signed } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';

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

const KIND_WORDS = {
  index: 'index point',
  terrestrial: 'terrestrial limiting',
  marine: 'marine limiting',
} as const;

/** A point's mark at the size of a line of text. */
export function SmallMark({ point }: { point: Pick<PointResult, 'kind' | 'position' | 'status'> }) {
  const { theme } = useTheme();
  const y = point.kind === 'terrestrial' ? 3 : point.kind === 'marine' ? 11 : 7;
  const half = point.kind === 'index' ? 4.6 : 7;
  const words = `${point.status === 'rejected' ? 'rejected ' : ''}${KIND_WORDS[point.kind]}`;
  return (
    <svg className="point-mark" viewBox="0 0 18 14" width={27} height={21} role="img" aria-label={words}>
      <InkContext value={INKS[theme]}>
        <PointMark
          point={point}
          at={{ x1: 9 - half, x2: 9 + half, x: 9, y, spread: point.kind === 'index' ? 4.6 : 7 }}
        />
      </InkContext>
    </svg>
  );
}
