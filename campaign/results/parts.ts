/** What several results have in common. */
import { as, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';

export const rowId = () => text('identity of the table row it comes from');

const estimate = record(
  'a quantity with its uncertainty',
  {
    value: number('best value', 'unit of the property'),
    sigma: sigma('1 sigma', 'unit of the property'),
    lower95: number('lower end of the central 95 %', 'unit of the property'),
    upper95: number('upper end of the central 95 %', 'unit of the property'),
  },
  'estimate',
);
/** A quantity with its uncertainty, in the unit of the property's name. */
export type Estimate = ShapeValue<typeof estimate>;

export const anEstimate = (about: string) => as(about, estimate);
export const perhapsEstimate = (about: string) => orNull(as(about, estimate));

export const ageInterval = record(
  'an interval of a highest-density set',
  {
    older_cal_bp: number('older end', 'cal BP'),
    younger_cal_bp: number('younger end', 'cal BP'),
    probability: number('probability inside it', '0 to 1'),
  },
  'age_interval',
);
export type AgeInterval = ShapeValue<typeof ageInterval>;

export const component = record(
  'one part of a height error',
  {
    component: text('name of the part'),
    sigma_m: sigma('1 sigma of the declared shape; a uniform of half width h has h/√3', 'm'),
    shape: word('shape of the error', ['normal', 'uniform', 'one_sided']),
    shared_group: orNull(text('points that name the same group share this error; null: the point’s own')),
    source: text('where the figure comes from; begins with “assumed” where it was not measured or declared'),
  },
  'error_component',
);
/** One part of a height error. */
export type ErrorComponent = ShapeValue<typeof component>;

/** Whether a part's figure was neither measured nor declared. */
export const isAssumed = ({ source }: Pick<ErrorComponent, 'source'>): boolean =>
  source.startsWith('assumed');
