/** What the trace says of tide levels and of the gauges they are computed from. */
import type { Row } from '@stillstand/campaign/tables';
import type { SiteTideLevel } from '@stillstand/science/points';
import type { Told } from '../runner/step.ts';

const level = (site: string, how: string, of: SiteTideLevel): Told => ({
  label: `${of.level} at ${site}`,
  how,
  value: of.elevation_m,
  sigma: of.sigma_m,
  unit: 'm',
  signed: true,
});

export const tellTideLevel = ({ site, source }: Row<'tide_levels'>, of: SiteTideLevel): Told =>
  level(site, source ?? 'as stated', of);

export const tellComputedLevel = (site: string, gauge: string, how: string, of: SiteTideLevel): Told =>
  level(site, `${how} of ${gauge}`, of);

export const tellZero = (gauge: string, elevation_m: number, sigma_m: number): Told => ({
  label: `Zero of gauge ${gauge}`,
  how: 'its elevation + datum shift',
  value: elevation_m,
  sigma: sigma_m,
  unit: 'm',
  signed: true,
});

const unnumbered = (label: string, how: string): Told => ({ label, how, value: null, sigma: null, unit: '' });

export const tellConstants = (gauge: string, used: number, first_year: number): Told =>
  unnumbered(
    `Tidal constants of ${gauge}`,
    `${used} constituents, predicted from ${first_year} to ${first_year + 18}`,
  );

export const tellReadings = (
  gauge: string,
  { days, highs, lows }: { days: number; highs: number; lows: number },
): Told =>
  unnumbered(
    `Readings of ${gauge}`,
    `${highs} high and ${lows} low waters found in ${days.toFixed(1)} days of readings`,
  );
