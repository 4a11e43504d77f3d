/** What dates not yet taken would read on a curve: some tens of milliseconds, in a task of their own once the page stands. */
import { type CurveResult, type Readings, usualReadings } from '@stillstand/science/curve';
import { useEffect, useState } from 'react';

/** Of the last curve they were made for; null without one, or without an index point. */
export function useReadings(curve: CurveResult | null): { curve: CurveResult; readings: Readings } | null {
  const [made, setMade] = useState<{ curve: CurveResult; readings: Readings } | null>(null);
  useEffect(() => {
    if (curve === null) return;
    const later = setTimeout(() => {
      const readings = usualReadings(curve);
      setMade(readings === null ? null : { curve, readings });
    });
    return () => clearTimeout(later);
  }, [curve]);
  return made;
}
