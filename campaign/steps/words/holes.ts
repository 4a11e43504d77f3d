/** What the trace says of a hole: its readings, what entered, what was removed, its depth models. */
import type { DepthModel } from '@stillstand/science/depth';
import type { ReducedHole } from '@stillstand/science/rig';
import type { ModelledPush } from '../hole/place.ts';
import type { Told } from '../runner/step.ts';

export const tellReadings = (hole: string, { collar_to_shoe_m }: ReducedHole): Told => ({
  label: `Readings of ${hole}`,
  how: 'reduced in the order of their numbers',
  value: collar_to_shoe_m,
  sigma: null,
  unit: 'm collar to shoe',
});

export const tellRemoved = ({
  run,
  removed_m,
  removed_sigma_m,
  removed_from,
}: ReducedHole['runs'][number]): Told => ({
  label: `Removed by run ${run}`,
  how: {
    soundings: 'sounding after − sounding before',
    advance: 'end mark − start mark',
    recovered: 'recovered length',
    nothing: 'not known',
  }[removed_from],
  value: removed_m,
  sigma: removed_sigma_m,
  unit: 'm',
});

export const tellEntered = ({
  penetration_m,
  entered_m,
  sigma_m,
}: ReducedHole['soundings'][number]): Told => ({
  label: `Entered at ${penetration_m.toFixed(2)} m penetration`,
  how: 'collar to shoe − sounding + removed so far',
  value: entered_m,
  sigma: sigma_m,
  unit: 'm',
});

export const tellDepthModel = (hole: string, soundings: number, { shortening }: DepthModel): Told => ({
  label: `Depth model of ${hole}`,
  how:
    soundings === 0
      ? 'decaying shortening, from priors alone: no sounding'
      : `decaying shortening through ${soundings} soundings`,
  value: shortening?.recovery_at_ground.value ?? null,
  sigma: shortening?.recovery_at_ground.sigma ?? null,
  unit: 'recovery at the ground',
});

export const tellPush = (hole: string, { label, reckoning }: ModelledPush): Told => ({
  label: `Push ${label} of ${hole}`,
  how: {
    chamber: 'closed in place: no shortening',
    readings: 'shortening = inside − outside reading',
    recovered: 'shortening from the recovered length',
    nothing: 'shortening from priors alone',
  }[reckoning.entered_from],
  value: reckoning.entered_m,
  sigma: reckoning.sigma_m,
  unit: 'm entered',
});
