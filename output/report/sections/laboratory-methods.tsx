/** How laboratory values were put on depth, and what was computed of grain size and weights. */
import type { Results } from '@stillstand/campaign/results';
import { counted } from '@stillstand/output/words';
import type { ReactNode } from 'react';
import type { Source } from '../references.ts';

/** Null where nothing was measured but what dates are made of. */
export function laboratoryMethods({
  logs,
  grain_sizes,
}: Results): { title: string; text: ReactNode; cites: Source[] } | null {
  if (logs.length === 0 && grain_sizes.length === 0) return null;
  const whole = grain_sizes.filter((size) => size.open_fine_percent !== null);
  const isIso = grain_sizes[0]?.scale === 'iso_14688';
  const isWeighed = logs.some(({ points }) => points.some(({ computed }) => computed === 'from_weights'));
  const isNamed = whole.some(({ name }) => name !== null);
  const hasGraphic = whole.some(({ folk_ward }) => folk_ward !== null);
  return {
    title: 'Laboratory',
    cites: [
      ...(hasGraphic ? (['Folk & Ward 1957'] as const) : []),
      ...(isNamed ? (['Folk 1954'] as const) : []),
      ...(whole.length > 0 && !isIso ? (['Wentworth 1922'] as const) : []),
    ],
    text: (
      <p>
        {logs.length === 0
          ? ''
          : `Laboratory values lie at the in-situ depth of the middle of what was measured and share the depth errors of their hole; values of one quantity are in one unit. `}
        {isWeighed
          ? 'Loss on ignition and water content are parts of the dry mass, densities are masses over the volume that was cut, all from the weights of one pan; salt was not subtracted. '
          : ''}
        {whole.length === 0
          ? ''
          : `${counted(whole.length, 'grain-size analysis', 'grain-size analyses')}: gravel, sand, silt and clay by the limits of ${isIso ? 'ISO 14688-1' : 'Wentworth (1922)'}${isNamed ? ', names after Folk (1954)' : ''}${hasGraphic ? ', graphic mean, sorting, skewness and kurtosis of Folk & Ward (1957; 6.6 in the divisor of the sorting), percentiles straight between the limits of classes in phi, −log2 of the diameter in mm' : ''}. What lies in a class without an end was left unknown.`}
      </p>
    ),
  };
}
