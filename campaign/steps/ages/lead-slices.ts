/** Measurements in a hole as slices of a lead-210 profile: which property is which, in which unit, at which depth. */
import type { Campaign } from '@stillstand/campaign/document';
import type { MeasurementResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import {
  ACTIVITY_UNITS,
  type Activity,
  activityFactor,
  DENSITY_UNITS,
  densityFactor,
  type LeadMeasurement,
  type LeadProfile,
  type LeadSlice,
  leadMeasurement,
} from '@stillstand/science/lead';
import type { Complain } from '../complaint.ts';

type MeasurementRow = Row<'measurements'>;
/** A slice as it was measured, and the rows it comes from. */
export interface MeasuredSlice {
  /** Density that has the dry mass of the slice in its in-situ thickness. */
  slice: LeadSlice;
  /** As measured. */
  density_g_cm3: number | null;
  /** Excess as a laboratory gave it; used where there is no total. */
  excess: Activity | null;
  /** Top and thickness on the basis it was measured on, m. */
  from_m: number;
  entered_m: number;
  rows: Partial<Record<LeadMeasurement, MeasurementRow>>;
}

/** A value without its 1 sigma is taken to be known to a tenth (our choice). */
const NO_SIGMA = 0.1;

export function leadSlices(
  campaign: Campaign,
  hole: string,
  results: readonly MeasurementResult[],
  stated: LeadProfile['supported'],
  complain: Complain<MeasurementRow>,
): MeasuredSlice[] {
  const samples = new Map(campaign.rows.samples.map((row) => [row.sample, row]));
  const placed = new Map(results.map((result) => [result.row_id, result]));
  const found = new Map<string, MeasuredSlice>();
  for (const row of campaign.rows.measurements) {
    const what = leadMeasurement(row.property);
    const result = placed.get(row.row_id);
    if (what === null || result?.hole !== hole || result.depth_m === null || result.thickness_m === null)
      continue;
    const sample = row.sample === null ? undefined : samples.get(row.sample);
    const { top_m, bottom_m, run } = sample ?? row;
    const entered_m = Math.abs((bottom_m ?? top_m ?? 0) - (top_m ?? bottom_m ?? 0));
    const where = `${metres(top_m ?? 0)}–${metres(bottom_m ?? top_m ?? 0)} m`;
    const id = row.sample ?? (run === null ? where : `${run} ${where}`);
    const slice = found.get(id) ?? empty(id, result.depth_m.value, result.thickness_m, top_m ?? 0, entered_m);
    found.set(id, slice);
    const before = slice.rows[what];
    if (before !== undefined) {
      complain(
        row,
        'lead-measured-twice',
        'property',
        `${row.property} of ${id} twice`,
        'one value for each slice',
        'Delete or pool one of them. The first is used until then.',
        'warning',
      );
      continue;
    }
    slice.rows[what] = row;
    enter(slice, what, row, complain);
  }
  for (const { slice, excess } of found.values())
    if (slice.total === null && excess !== null) {
      const { bq_kg = 0 } = stated ?? {};
      slice.total = { ...excess, bq_kg: excess.bq_kg + bq_kg };
      if (stated === null) slice.supported = { bq_kg: 0, sigma_bq_kg: 0 };
    }
  const all = [...found.values()];
  beginAtGround(all);
  return all;
}

/**
 * The top of a core is the ground, although its mean place in the ground is some millimetres below it, since a corer may
 * by-pass what lies on top.
 */
function beginAtGround(slices: readonly MeasuredSlice[]): void {
  if (slices.length === 0) return;
  const { slice, from_m } = slices.reduce((a, b) => (b.slice.top_m < a.slice.top_m ? b : a));
  const thickness_m = slice.bottom_m - slice.top_m;
  if (from_m !== 0 || !(slice.top_m < thickness_m)) return;
  if (slice.density_g_cm3 !== null) slice.density_g_cm3 *= thickness_m / slice.bottom_m;
  slice.top_m = 0;
}

/** To the millimetre, where it was measured to one. */
const metres = (m: number): string => m.toFixed(Math.abs(m * 100 - Math.round(m * 100)) < 0.001 ? 2 : 3);

function empty(
  id: string,
  middle_m: number,
  thickness_m: number,
  from_m: number,
  entered_m: number,
): MeasuredSlice {
  const top_m = middle_m - thickness_m / 2;
  return {
    slice: {
      id,
      top_m,
      bottom_m: top_m + thickness_m,
      total: null,
      supported: null,
      density_g_cm3: null,
      caesium: null,
    },
    density_g_cm3: null,
    excess: null,
    from_m,
    entered_m,
    rows: {},
  };
}

function enter(
  into: MeasuredSlice,
  what: LeadMeasurement,
  row: MeasurementRow,
  complain: Complain<MeasurementRow>,
): void {
  const { slice } = into;
  if (what === 'density') {
    const factor = row.unit === null ? null : densityFactor(row.unit);
    if (row.value === null || row.qualifier !== null) return;
    if (factor === null) {
      badUnit(row, DENSITY_UNITS, complain);
      return;
    }
    into.density_g_cm3 = row.value * factor;
    // What was shortened on its way in has lost thickness, not dry mass.
    const thickness_m = slice.bottom_m - slice.top_m;
    slice.density_g_cm3 =
      thickness_m > 0 ? (into.density_g_cm3 * into.entered_m) / thickness_m : into.density_g_cm3;
    return;
  }
  const value = activityOf(row, complain);
  if (value === null) return;
  if (what === 'excess') into.excess = value;
  else slice[what] = value;
}

function activityOf(row: MeasurementRow, complain: Complain<MeasurementRow>): Activity | null {
  const { value, sigma, unit, qualifier } = row;
  if (value === null || qualifier === 'not_determined') return null;
  const factor = unit === null ? null : activityFactor(unit);
  if (factor === null) {
    badUnit(row, ACTIVITY_UNITS, complain);
    return null;
  }
  if (qualifier === 'less_than') return { bq_kg: value * factor, sigma_bq_kg: 0, is_limit: true };
  if (qualifier === 'greater_than') {
    complain(
      row,
      'lead-limit',
      'qualifier',
      `above ${value}`,
      'a value, or a limit it is below',
      'Enter the value. It counts as not measured until then.',
    );
    return null;
  }
  if (sigma === null)
    complain(
      row,
      'lead-no-sigma',
      'sigma',
      '',
      '1 sigma of the activity',
      'Enter it. A tenth of the value is assumed until then.',
      'warning',
    );
  return { bq_kg: value * factor, sigma_bq_kg: (sigma ?? NO_SIGMA * Math.abs(value)) * factor };
}

function badUnit(row: MeasurementRow, expected: string, complain: Complain<MeasurementRow>): void {
  complain(
    row,
    'lead-unit',
    'unit',
    row.unit ?? '',
    expected,
    'State the unit. The value is not used in the lead-210 profile until then.',
  );
}
