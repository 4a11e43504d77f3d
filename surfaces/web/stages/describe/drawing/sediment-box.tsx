/** A stretch of sediment; drawn again only when it changes, because a pattern has many strokes. */
import { Pattern, type Sediment } from '@stillstand/output/drawing';
import { memo } from 'react';

export const SedimentBox = memo(function SedimentBox({
  sediment,
  x1,
  x2,
  y1,
  y2,
  id,
  seed,
}: {
  sediment: Sediment;
  x1: number;
  x2: number;
  y1: number;
  y2: number;
  id: string;
  seed: number;
}) {
  return <Pattern sediment={sediment} at={{ x1, x2, y1, y2 }} id={id} seed={seed} />;
});
