/** Models of the rate compared, the changes of a stepwise one, and the headline rate under other priors: a row each. */
import { curveOf, ratesComparedOf, resultsShape } from '@stillstand/campaign/results';
import type { CurveResult, RatesCompared } from '@stillstand/science/curve';
import { itself, ofEachCurve } from './table.ts';

const { curve, rates_compared } = resultsShape.fields.curves.of.fields;
const { changes, prior_sensitivity } = curve.fields;

export const RATES_COMPARED = ofEachCurve({
  file: 'rates_compared.csv',
  entry: 'curves[].rates_compared[]',
  about: rates_compared.about,
  shape: rates_compared.of,
  rows: ratesComparedOf,
  read: itself<RatesCompared[number]>,
});

export const CHANGES = ofEachCurve({
  file: 'changes.csv',
  entry: 'curves[].curve.changes[]',
  about: changes.about,
  shape: changes.of,
  rows: (results) => curveOf(results)?.changes ?? [],
  read: itself<CurveResult['changes'][number]>,
});

export const PRIOR_SENSITIVITY = ofEachCurve({
  file: 'prior_sensitivity.csv',
  entry: 'curves[].curve.prior_sensitivity[]',
  about: prior_sensitivity.about,
  shape: prior_sensitivity.of,
  rows: (results) => curveOf(results)?.prior_sensitivity ?? [],
  read: itself<CurveResult['prior_sensitivity'][number]>,
});
