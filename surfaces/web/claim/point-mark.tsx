/** A point's mark at the size of a line of text. */
import type { PointResult } from '@stillstand/campaign/results';
import { INKS, InkContext, PointMark } from '@stillstand/output/drawing';
import { useTheme } from '../shell/index.ts';

const KIND_WORDS = {
  index: 'index point',
  terrestrial: 'terrestrial limiting',
  marine: 'marine limiting',
} as const;

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
