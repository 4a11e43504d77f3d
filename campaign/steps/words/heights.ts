/** What the trace says of heights. */
import type { Row } from '@stillstand/campaign/tables';
import { type Elevation, elevationSigma } from '../heights/elevation.ts';
import type { Told } from '../runner/step.ts';

const height = (label: string, how: string, elevation: Elevation): Told => ({
  label,
  how,
  value: elevation.value_m,
  sigma: elevationSigma(elevation),
  unit: 'm',
  signed: true,
});

export const tellShift = (
  from: string,
  datum: string,
  { shift_m, sigma_m }: { shift_m: number; sigma_m: number },
): Told => ({
  label: `${from} to ${datum}`,
  how: 'sum of the datum shifts between them',
  value: shift_m,
  sigma: sigma_m,
  unit: 'm',
  signed: true,
});

export const tellBenchmark = (benchmark: string, isFromSatellite: boolean, elevation: Elevation): Told =>
  height(
    `Benchmark ${benchmark}`,
    `${isFromSatellite ? 'height above the ellipsoid − geoid height' : 'its elevation'} + datum shift`,
    elevation,
  );

export const tellLoop = (
  loop: string,
  { closures }: { closures: readonly { misclosure_m: number }[] },
): Told => ({
  label: `Loop ${loop}`,
  how: 'rise and fall, adjusted by distance',
  value: closures[0]?.misclosure_m ?? null,
  sigma: null,
  unit: 'm misclosure',
  signed: true,
});

export const tellLevelled = (point: string, loop: string, elevation: Elevation): Told =>
  height(`Levelled point ${point}`, `reduced in loop ${loop}, adjusted`, elevation);

const REFERENCE = {
  levelled: 'levelled',
  benchmark: 'the benchmark itself',
  stated: 'as stated for the hole + datum shift',
} as const;

export const tellReference = (
  { hole, reference_basis, replaces }: Pick<Row<'holes'>, 'hole' | 'reference_basis' | 'replaces'>,
  from: keyof typeof REFERENCE,
  elevation: Elevation,
): Told => {
  const how = REFERENCE[from];
  const basis =
    reference_basis === 'assumed'
      ? `; assumed the same as ${replaces === null ? 'in the hole before' : `in ${replaces}`}`
      : reference_basis === 'levelled'
        ? '; levelled again for this hole'
        : '';
  return height(`Reference of ${hole}`, how + basis, elevation);
};

export const tellGround = (hole: string, isMeasured: boolean, elevation: Elevation): Told =>
  height(
    `Ground at ${hole}`,
    isMeasured ? 'reference − ground below it' : 'level with the reference (assumed)',
    elevation,
  );
