/** Grain size of one sample or place in a core: its classes and what they give. */
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { perhapsEstimate, rowId } from './parts.ts';

const percent = (about: string) => orNull(number(about, 'percent'));
const phi = (about: string) => orNull(number(about, 'phi'));

export const grainSizeShape = record('a grain-size analysis', {
  row_id: rowId(),
  hole: orNull(text('hole')),
  sample: orNull(text('sample; null: a place in a core')),
  batch: orNull(text('batch of measurements made together')),
  depth_m: perhapsEstimate('in-situ depth of its middle, m'),
  thickness_m: orNull(number('thickness of what was measured', 'm')),
  scale: word('whose limits part gravel, sand, silt and clay', ['wentworth', 'iso_14688']),
  sum_percent: percent('sum of the classes as stated; null: they are masses'),
  classes: list(
    'its classes from coarse to fine, without totals',
    record('a class', {
      row_id: rowId(),
      name: text('as its property names it'),
      coarser_phi: phi('its coarser limit; null: open'),
      finer_phi: phi('its finer limit; null: open'),
      percent: number('as stated; half of a limit', 'percent'),
      percent_sigma: orNull(sigma('1 sigma of it', 'percent')),
    }),
  ),
  gravel_percent: percent('gravel; null: the classes do not say'),
  sand_percent: percent('sand'),
  silt_percent: percent('silt'),
  clay_percent: percent('clay'),
  mud_percent: percent('silt and clay together'),
  name: orNull(text('sediment by its parts, after Folk 1954')),
  median_phi: phi('φ at 50 %; null: in a class without an end'),
  median_sigma_phi: orNull(sigma('1 sigma of the median', 'phi')),
  p5_phi: phi('φ at 5 % coarser'),
  p16_phi: phi('φ at 16 %'),
  p25_phi: phi('φ at 25 %'),
  p75_phi: phi('φ at 75 %'),
  p84_phi: phi('φ at 84 %'),
  p95_phi: phi('φ at 95 %'),
  folk_ward: orNull(
    record('graphic statistics of Folk & Ward 1957; null: a percentile lies in a class without an end', {
      mean_phi: number('graphic mean', 'phi'),
      mean_sigma_phi: orNull(sigma('1 sigma of the mean', 'phi')),
      mean_mm: number('the same as a diameter', 'mm'),
      sorting_phi: number('inclusive graphic standard deviation, divisor 6.6', 'phi'),
      sorting_sigma_phi: orNull(sigma('1 sigma of the sorting', 'phi')),
      skewness: number('inclusive graphic skewness; positive: a fine tail', ''),
      kurtosis: number('graphic kurtosis; 1 for a normal', ''),
      sorting: text('sorting in words'),
      skew: text('skewness in words'),
      peak: text('kurtosis in words'),
    }),
  ),
  moments: orNull(
    record('by the method of moments; null: more than 5 % in a class without an end', {
      mean_phi: number('mean', 'phi'),
      sd_phi: number('standard deviation', 'phi'),
      skewness: number('third moment over sd³', ''),
      kurtosis: number('fourth moment over sd⁴; 3 for a normal', ''),
      ends: word('whether a class without an end was given one, as wide as its neighbour', [
        'measured',
        'assumed',
      ]),
    }),
  ),
  open_coarse_percent: percent('in the class without a coarser limit; null: no statistics'),
  open_fine_percent: percent('in the class without a finer limit; null: no statistics'),
});
export type GrainSizeResult = ShapeValue<typeof grainSizeShape>;
