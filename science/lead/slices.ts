/** Slices that can be used, from the top down, and what is wrong with the others. */
import type { Activity, LeadFault, LeadProfile, LeadSlice } from './profile.ts';

/** Nothing thinner is cut, m. */
const THINNEST_M = 0.001;
/** Ends closer than this are one, m: depths are written to the millimetre. */
export const SAME_M = 0.0005;

export const span = ({ top_m, bottom_m }: Pick<LeadSlice, 'top_m' | 'bottom_m'>): string =>
  `${metres(top_m)} to ${metres(bottom_m)} m`;
const metres = (m: number): string => String(Math.round(m * 10000) / 10000).replace('-', '−');

export function usableSlices({ slices, collected_ce }: LeadProfile): {
  used: LeadSlice[];
  faults: LeadFault[];
} {
  const faults: LeadFault[] = [];
  const used: LeadSlice[] = [];
  for (const slice of slices.toSorted((a, b) => a.top_m - b.top_m)) {
    const before = used.at(-1);
    if (
      !(
        slice.bottom_m - slice.top_m > THINNEST_M - SAME_M &&
        slice.top_m >= -SAME_M &&
        slice.bottom_m < Infinity
      )
    )
      faults.push({
        code: 'no_thickness',
        severity: 'error',
        slice: slice.id,
        found: span(slice),
        expected: 'a bottom below the top, and neither above the surface',
        fix: 'Correct the depths; exchange them if they are the wrong way round. The slice is left out until then.',
      });
    else if (before !== undefined && slice.top_m < before.bottom_m - SAME_M)
      faults.push({
        code: 'overlap',
        severity: 'error',
        slice: slice.id,
        found: `${span(slice)}, and another of ${span(before)}`,
        expected: 'slices that do not overlap',
        fix: 'Correct the depths of one of them. The lower one is left out until then.',
      });
    else used.push(cleaned(slice, faults));
  }
  if (collected_ce === null)
    faults.push({
      code: 'collected',
      severity: 'warning',
      slice: null,
      found: 'no date of collection',
      expected: 'the day the core was taken',
      fix: 'Enter it. Ages count back from collection until then and have no place in the calendar.',
    });
  return { used, faults };
}

/** The slice without what cannot be so. */
function cleaned(slice: LeadSlice, faults: LeadFault[]): LeadSlice {
  const activity = (what: string, value: Activity | null): Activity | null => {
    if (value === null) return null;
    const { bq_kg, sigma_bq_kg, is_limit } = value;
    if (Number.isFinite(bq_kg) && sigma_bq_kg >= 0 && sigma_bq_kg < Infinity && !(is_limit && bq_kg < 0))
      return value;
    faults.push({
      code: 'activity',
      severity: 'error',
      slice: slice.id,
      found: `${what} ${bq_kg} ± ${sigma_bq_kg} Bq/kg`,
      expected: 'a number with a sigma of 0 or more; a limit above 0',
      fix: 'Correct it. It counts as not measured until then.',
    });
    return null;
  };
  const { density_g_cm3 } = slice;
  const hasDensity =
    density_g_cm3 === null || (density_g_cm3 >= LIGHTEST_G_CM3 && density_g_cm3 <= HEAVIEST_G_CM3);
  if (!hasDensity)
    faults.push({
      code: 'density',
      severity: 'error',
      slice: slice.id,
      found: `dry density ${density_g_cm3} g/cm³`,
      expected: `${LIGHTEST_G_CM3} to ${HEAVIEST_G_CM3} g/cm³`,
      fix: 'Correct the density or its unit. It is taken from its neighbours until then.',
    });
  return {
    ...slice,
    total: activity('total lead-210', slice.total),
    supported: activity('supported lead-210', slice.supported),
    caesium: activity('caesium-137', slice.caesium),
    density_g_cm3: hasDensity ? density_g_cm3 : null,
  };
}

/** Solid quartz has 2.65 g/cm³; no sediment is heavier when dry, and the loosest moss is some hundredths (common practice, no source). */
const HEAVIEST_G_CM3 = 2.65;
const LIGHTEST_G_CM3 = 0.005;
