/** What a person calls a column, a setting and a word of a list: never the name it has in the files. */

/** Units that names end in; they are written with the value. */
const UNIT = /_(?:kg_per_m|mm_yr_ka|mm_yr|cal_bp|bq_kg|permil|percent|mm|deg|kg|kn|hz|ka|yr|ce|m|l|s)$/;

/** By column, or by table and column where another table means something else by it. */
const COLUMNS: Readonly<Record<string, string>> = {
  row_id: 'identity',
  seq: 'number',
  amends: 'reading that is amended',
  amend_kind: 'kind of amendment',
  amend_reason: 'reason of the amendment',
  allowed_mm_sqrt_km: 'largest misclosure',
  age_from: 'source of the age',
  age_2sigma_yr: '2 sigma of the age',
  'age_densities.density': 'age density',
  at_fraction: 'place between the holes',
  c14_age: 'radiocarbon age',
  c14_error: 'error of the radiocarbon age',
  'calibration_curves.reservoir': 'curve of',
  cable_at_collar: 'cable at the collar',
  collimation_mm: 'two-peg test',
  collimation_over_m: 'length of sight in the two-peg test',
  delta13c_permil: 'δ13C',
  delta_r: 'reservoir offset ΔR',
  delta_r_error: '1 sd of ΔR',
  delta_r_group: 'water of the offset',
  age_role: 'age applies as',
  distance_to_replaced_m: 'distance to the replaced hole',
  end_mark: 'cable mark at the end',
  event_bed: 'laid down at once',
  event_group: 'of one event',
  fraction_dated: 'what was dated',
  hole_a: 'first hole',
  hole_b: 'second hole',
  lab_code: 'laboratory code',
  known_age_ce: 'year collected',
  left_in_ground: 'left in the ground',
  marine_fraction: 'marine share',
  marine_fraction_error: '1 sd of the marine share',
  outside_mm: 'outside diameter',
  paired_with: 'terrestrial pair',
  pool_group: 'pooled as',
  reference_year: 'counted back from',
  replaces: 'replaced hole',
  rsl_m: 'relative sea level',
  rsl_2sigma_m: '2 sigma of the relative sea level',
  error_shape: 'shape of the error',
  systematic_error: 'shared part of the error',
  systematic_sigma: 'shared part of the sigma',
  systematic_group: 'error shared by',
  start_mark: 'cable mark at the start',
  stick_up_start: 'stick-up before',
  stick_up_end: 'stick-up after',
  stock_item: 'label',
  supported_bq_kg: 'supported lead-210',
  supported_sigma_bq_kg: 'sigma of the supported lead-210',
  to_sediment: 'collar to sediment',
  top_is_ground: 'begins at the living ground',
  to_water_inside: 'collar to water inside',
  to_water_before: 'collar to water before',
  to_water_after: 'collar to water after',
  unit_a: 'unit of the first hole',
  unit_b: 'unit of the second hole',
  'permits.from': 'valid from',
  'permits.until': 'valid until',
  'permits.reference': 'number',
  'permits.issued_by': 'who gives it',
  'permits.held_by': 'who carries it',
  'risks.who': 'who could be harmed',
  'packing.packed': 'packed for',
  closing_seal: 'seal demanded at closing',
  closing_pipe: 'pipe and gear at closing',
  closing_report: 'report demanded to',
  'custody.submission': 'parcel',
  'custody.request': 'asked for',
  'custody.left': 'what is left',
  'determinations.error': 'its 1 sd',
  'datum_shifts.from': 'from datum',
  'datum_shifts.to': 'to datum',
};

const SETTINGS: Readonly<Record<string, string>> = {
  name: 'name of the campaign',
  datum: 'datum of all heights',
  length_unit: 'unit of lengths typed without one',
  position_grid: 'national grid of positions',
  curve_sites: 'sites of the curve',
  curve_youngest_cal_bp: 'first age of the curve',
  curve_oldest_cal_bp: 'last age of the curve',
  curve_step_yr: 'step of the curve',
  compare_rates: 'comparison of rate models',
  rate_model: 'model of the rate',
  rate_changes: 'changes of the rate',
  rate_jump_m: 'jump of the level at a change',
  age_depth: 'holes with an age–depth model',
  present_constraint_sd_m: 'sd of the present constraint',
  date_fails_percent: 'dates without a result',
  by_passing: 'ground pushed aside',
  gear_holes: 'holes of the gear list',
  gear_mast_m: 'height of the mast',
  gear_drum_turns: 'turns on the winch drum',
  gear_drum_mm: 'diameter of the winch drum',
  gear_refills: 'refills of the string',
  gear_tray_m: 'core in one tray',
  gear_spare_percent: 'spare',
  gear_engine_h: 'engine hours for one hole',
  gear_fuel_l_h: 'fuel of the engine',
  gear_field_h: 'hours in the field',
  gear_drink_l_h: 'drinking water',
};

/** "reference_elevation_m" → "reference elevation", "replaces" → "hole it replaces"; a heading of one’s own stays. */
export const columnName = (table: string, column: string): string =>
  COLUMNS[`${table}.${column}`] ?? COLUMNS[column] ?? plainName(column);

/** "clearance_margin_m" → "clearance margin". */
export const settingName = (setting: string): string => SETTINGS[setting] ?? plainName(setting);

/** "in_situ" → "in situ": a word of a list, which may be typed either way. */
export const choiceName = (choice: string): string => choice.replaceAll('_', ' ');

const plainName = (name: string): string =>
  name
    .replace(UNIT, '')
    .replaceAll('_', ' ')
    .replace(/\b(stick|fall) (up|in)\b/, '$1-$2');
