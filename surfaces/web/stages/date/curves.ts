/** Calibration curves, read when first needed; once read they answer at once. */
import type { Published } from '@stillstand/campaign/steps';
import { isCurveName, loadCurve } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import { useEffect, useState } from 'react';

/** The named curves as far as they have been read. */
export function useCurves(names: readonly string[]): Published {
  const [published, setPublished] = useState<Published>({ curves: {}, doseFactors: DOSE_FACTORS });
  const wanted = [...new Set(names)].filter(isCurveName).sort().join(' ');
  useEffect(() => {
    let isOver = false;
    for (const name of wanted.split(' ').filter(isCurveName)) {
      void loadCurve(name).then((curve) => {
        if (isOver) return;
        setPublished((before) =>
          before.curves[name] === curve ? before : { ...before, curves: { ...before.curves, [name]: curve } },
        );
      });
    }
    return () => {
      isOver = true;
    };
  }, [wanted]);
  return published;
}

const isFilled = (cell: string | undefined): boolean => (cell?.trim() ?? '') !== '';

/** Curves that the ΔR of the campaign's own shells need: of a pair, those of both. */
export function curvesOfShells(rows: readonly { cells: Readonly<Record<string, string>> }[]): string[] {
  const cell = (cells: Readonly<Record<string, string>>, column: string): string =>
    cells[column]?.trim() ?? '';
  const shells = rows.filter(
    ({ cells }) => isFilled(cells['known_age_ce']) || isFilled(cells['paired_with']),
  );
  const codes = new Set(shells.flatMap(({ cells }) => [cell(cells, 'lab_code'), cell(cells, 'paired_with')]));
  return rows
    .filter(({ cells }) => codes.has(cell(cells, 'lab_code')))
    .map(({ cells }) => cell(cells, 'calibration_curve'))
    .filter(Boolean);
}

/** Curves a determination needs: the named one, and the sea where it has a share. */
export function curvesFor(cells: Readonly<Record<string, string>>): string[] {
  const curve = cells['calibration_curve']?.trim() ?? '';
  const hasShare = ['marine_fraction', 'marine_fraction_error'].some((column) => isFilled(cells[column]));
  const isMixed = hasShare && curve !== 'marine20';
  return [curve, ...(isMixed ? ['marine20'] : [])].filter((name) => name !== '');
}
