/** What age against depth returns, described once. Depths m below the ground, ages cal BP (yr before 1950 CE). */
import { agreement, bandShape, summaryShape } from '@stillstand/science/base';
import {
  as,
  list,
  number,
  numbers,
  record,
  type ShapeValue,
  sigma,
  text,
  word,
} from '@stillstand/science/shape';

const modeShape = record('a history among others that the dates leave possible', {
  probability: number('probability', '0 to 1'),
  age_cal_bp: record('age at each depth', {
    median: numbers('median', 'cal BP'),
    lower95: numbers('younger bound, 95 %', 'cal BP'),
    upper95: numbers('older bound, 95 %', 'cal BP'),
  }),
  clocks: list(
    'what its ages are made from',
    record('a clock in it', {
      id: text('of a date, the code given by the laboratory'),
      age_cal_bp: number('mean age of its layer', 'cal BP'),
      outlier_probability: number('probability that what was dated is not of the age of its layer', '0 to 1'),
    }),
  ),
});
export type Mode = ShapeValue<typeof modeShape>;

export const historyShape = record('age against depth in one hole, from all its clocks together', {
  depth_m: numbers(
    'depths of the bands, below the ground: boundaries of the sections, tops and bases of beds laid down at once',
    'm',
  ),
  age_cal_bp: as('age at each depth, cal BP', bandShape),
  accumulation_mm_yr: as(
    'accumulation of the sections that meet there, hiatuses and beds laid down at once apart, mm/yr',
    bandShape,
  ),
  clocks: list(
    'what its ages are made from',
    record('a clock among the others of its hole', {
      id: text('of a date, the code given by the laboratory'),
      kind: word('kind of clock', ['date']),
      age_cal_bp: as('age of its layer given the whole hole, cal BP', summaryShape),
      alone_cal_bp: record('age by the clock alone', {
        mean: number('mean', 'cal BP'),
        sd: number('standard deviation', 'yr'),
      }),
      age_shift_sd: number('mean of the layer less mean of the clock alone, over its sd', 'sd'),
      outlier_probability: number('probability that what was dated is not of the age of its layer', '0 to 1'),
    }),
  ),
  hiatuses: list(
    'time missing at erosional contacts',
    record('an erosional contact', {
      id: text('unit above it'),
      length_yr: as('years missing', summaryShape),
    }),
  ),
  beds: list(
    'beds laid down at once, which took no time',
    record('a bed laid down at once', {
      id: text('unit it is'),
      age_cal_bp: as('age, cal BP', summaryShape),
    }),
  ),
  shared: list(
    'errors that its dates share with each other or with dates of other holes',
    record('one error', {
      group: text('name of the reservoir; dose: before that of a systematic error of dates'),
      sigma_yr: sigma('1 sigma as stated, the largest of its dates; of a reservoir offset 14C yr', 'yr'),
      shift_yr: as(
        'what the dates made of it, above what was stated; of a reservoir offset 14C yr',
        summaryShape,
      ),
      dates: list('dates of the hole that share it', text('code given by the laboratory')),
      holes: list('other holes whose dates share it', text('label of the hole')),
    }),
  ),
  modes: list(
    'histories apart from each other that remain possible, the likelier first; none where it is one',
    modeShape,
  ),
  law: record('how the hole accumulated', {
    accumulation_mm_yr: as('median accumulation, of its sediments together, mm/yr', summaryShape),
    variation: as('1 sd of the logarithm of accumulation', summaryShape),
    persistence_m: as('depth over which accumulation persists, m', summaryShape),
  }),
  diagnostics: record('whether the numbers can be trusted', {
    ...agreement,
    chains: number('chains', ''),
    draws: number('kept draws of each chain', 'draws'),
    sweeps: number('sweeps of each chain, warm-up included', ''),
    remarks: list('what did not converge', text('one remark')),
  }),
});
export type History = ShapeValue<typeof historyShape>;
