/**
 * What stands in a column usually, for the help beside its field; what is outside is not refused. Common practice, no
 * source, except where one is named.
 */
import type { Help } from './field.tsx';

type Usual = Pick<Help, 'range' | 'source'>;

const PRACTICE = 'Common practice, no source';
const usual = (range: string, source = PRACTICE): Usual => ({ range, source });

const USUAL: Readonly<Record<string, Usual>> = {
  'datums.epoch_from': usual('19 years before the last'),
  'datums.epoch_to': usual('in the last 40 years'),
  'datum_shifts.shift_m': usual('−2 to 2 m'),
  'datum_shifts.sigma_m': usual('0.02 to 0.10 m'),
  'benchmarks.elevation_m': usual('0 to 50 m on a coast'),
  'benchmarks.ellipsoidal_height_m': usual('−100 to 100 m on a coast'),
  'benchmarks.geoid_height_m': usual('−107 to 86 m', 'Range of the geoid over the Earth, from memory'),
  'benchmarks.sigma_m': usual('0.01 to 0.06 m'),
  'levelling.backsight_m': usual('0.3 to 4 m: the staff'),
  'levelling.intermediate_m': usual('0.3 to 4 m: the staff'),
  'levelling.foresight_m': usual('0.3 to 4 m: the staff'),
  'levelling.distance_m': usual('20 to 100 m, both sights alike'),
  'gauges.zero_m': usual('−5 to 2 m'),
  'gauges.sigma_m': usual('0.01 to 0.05 m'),
  'gauge_readings.height_m': usual('0 to 8 m'),
  'constituents.amplitude_m': usual('0.01 to 3 m'),
  'constituents.phase_deg': usual('0 to 360°'),
  'constituents.amplitude_sigma_m': usual('0.001 to 0.02 m'),
  'constituents.phase_sigma_deg': usual('0.1 to 30°'),
  'tide_levels.elevation_m': usual('−6 to 6 m'),
  'tide_levels.sigma_m': usual('0.02 to 0.10 m'),
  'tide_ranges.age_cal_bp': usual('0 to 12,000 cal BP'),
  'tide_ranges.factor': usual('0.5 to 2; 1 is the range of today'),
  'tide_ranges.factor_sigma': usual('0.05 to 0.2'),
  'pipes.outside_diameter_mm': usual('60 to 115 mm'),
  'pipes.wall_mm': usual('3 to 6 mm'),
  'pipes.mass_kg_per_m': usual('4 to 17 kg/m'),
  'pipes.makeup_loss': usual('2 to 5 cm; measure one pair'),
  'samplers.length': usual('0.5 to 2 m'),
  'samplers.capacity': usual('0.4 to 1.5 m, shorter than the sampler'),
  'samplers.bore_mm': usual('40 to 70 mm'),
  'samplers.outside_mm': usual('50 to 80 mm, less than the bore of the pipe'),
  'samplers.mass_kg': usual('5 to 25 kg'),
  'holes.reference_elevation_m': usual('−2 to 10 m on a coast'),
  'holes.reference_sigma_m': usual('0.01 to 0.05 m levelled, 0.03 to 0.10 m by satellite'),
  'holes.distance_to_replaced_m': usual('1 to 5 m'),
  'holes.inclination_deg': usual('0 to 3°'),
  'ground_levels.ground_below_reference': usual('0 to 0.5 m'),
  'string_items.length': usual('1.5 to 3.1 m: 5 or 10 ft'),
  'string_items.line_load_kn': usual('1 to 30 kN; the load marked on the gear is the limit'),
  'drives.stick_up_start': usual('0.5 to 3.5 m'),
  'drives.stick_up_end': usual('0.2 to 1 m'),
  'drives.duration_s': usual('10 to 600 s'),
  'drives.frequency_hz': usual('50 to 200 Hz'),
  'soundings.sigma': usual('1 to 2 cm'),
  'water_added.volume_l': usual('5 to 60 L'),
  'runs.strokes': usual('5 to 60'),
  'runs.recovered': usual('0.3 to 1.5 m, no more than was removed'),
  'runs.fall_in': usual('0 to 0.2 m'),
  'pushes.recovered': usual('0.4 to 1 of the push'),
  'sections.length': usual('0.5 to 1.5 m'),
  'samples.elevation_sigma_m': usual('0.02 to 0.10 m'),
  'determinations.value': usual('0 to 12,000 yr in Holocene sediment; radiocarbon reaches to about 50,000'),
  'determinations.error': usual('20 to 60 yr for radiocarbon, 5 to 10 % of the age for luminescence'),
  'determinations.delta13c_permil': usual('−30 to −22 ‰ for land plants, −3 to 3 ‰ for marine shell'),
  'determinations.delta_r': usual('−200 to 400 yr, for the curve that is named'),
  'determinations.delta_r_error': usual('20 to 100 yr'),
  'determinations.marine_fraction': usual('0 for what grew on land, 1 for what grew in the sea'),
  'determinations.reference_year': usual('the year of measurement, for luminescence'),
  'points.compressible_below': usual('0 to 10 m'),
  'point_errors.value_m': usual('0.01 to 0.50 m'),
};

export const usualOf = (table: string, column: string): Usual => USUAL[`${table}.${column}`] ?? {};
