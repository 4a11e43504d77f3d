/** What the trace says of points and of the tide levels they use. */
import type { ErrorComponent, PointResult, PublishedPointResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { RangeThen } from '@stillstand/science/points';
import type { Told } from '../runner/step.ts';

export const tellWaterLevel = (
  { kind }: Row<'points'>,
  {
    reference_water_level_m,
    components,
  }: { reference_water_level_m: number; components: readonly ErrorComponent[] },
  isScaled: boolean,
): Told => ({
  label: kind === 'index' ? 'Reference water level' : 'Tide level of the limit',
  how: `${kind === 'index' ? 'middle of the indicative meaning' : 'the level the limit uses'}${isScaled ? ', tide levels scaled about mean sea level by the tidal range then' : ''}`,
  value: reference_water_level_m,
  sigma: components.find((c) => c.component === 'tide_levels')?.sigma_m ?? null,
  unit: 'm',
  signed: true,
});

export const tellRange = (point: string, { factor, factor_sigma, age_sigma }: RangeThen): Told => ({
  label: `Tidal range at the time of ${point}, of today’s`,
  how: `straight between the rows of the table, over the distribution of the age (sd ${age_sigma.toFixed(3)})`,
  value: factor,
  sigma: factor_sigma,
  unit: '',
});

export const tellPoint = ({ kind, point }: Row<'points'>, { rsl_m, rsl_sigma_m }: PointResult): Told => ({
  label: `${kind === 'index' ? 'RSL' : 'RSL limit'} at ${point}`,
  how: 'elevation − reference water level',
  value: rsl_m,
  sigma: rsl_sigma_m,
  unit: 'm',
  signed: true,
});

export const tellPublishedPoint = ({
  kind,
  point,
  source,
  rsl_m,
  rsl_sigma_m,
  age_from,
  calibration_curve,
}: PublishedPointResult): Told => ({
  label: `${kind === 'index' ? 'RSL' : 'RSL limit'} at ${point}, published`,
  how: `${source}; ${age_from === 'calendar' ? 'calendar age as published' : `radiocarbon age calibrated with ${calibration_curve}`}`,
  value: rsl_m,
  sigma: rsl_sigma_m,
  unit: 'm',
  signed: true,
});
