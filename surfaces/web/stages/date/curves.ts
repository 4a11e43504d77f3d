/** Calibration curves, read when first needed; once read they answer at once. */
import type { Published } from '@stillstand/campaign/steps';
import { isCurveName, loadCurve } from '@stillstand/published/curves';
import { useEffect, useState } from 'react';

/** The named curves as far as they have been read. */
export function useCurves(names: readonly string[]): Published {
  const [published, setPublished] = useState<Published>({ curves: {} });
  const wanted = [...new Set(names)].filter(isCurveName).sort().join(' ');
  useEffect(() => {
    let isOver = false;
    for (const name of wanted.split(' ').filter(isCurveName)) {
      void loadCurve(name).then((curve) => {
        if (isOver) return;
        setPublished((before) =>
          before.curves[name] === curve ? before : { curves: { ...before.curves, [name]: curve } },
        );
      });
    }
    return () => {
      isOver = true;
    };
  }, [wanted]);
  return published;
}

/** Curves a determination needs: the named one, and the sea where it has a share. */
export function curvesFor(cells: Readonly<Record<string, string>>): string[] {
  const curve = cells['calibration_curve']?.trim() ?? '';
  const isMixed = (cells['marine_fraction']?.trim() ?? '') !== '' && curve !== 'marine20';
  return [curve, ...(isMixed ? ['marine20'] : [])].filter((name) => name !== '');
}
