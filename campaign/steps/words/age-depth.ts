/** What the trace says of age against depth. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { groupOfDoses } from '@stillstand/science/dating';
import type { Told } from '../runner/step.ts';

export const tellAgeDepth = (hole: string, dates: number, result: HoleHistory | null): Told => ({
  label: `Age–depth model of ${hole}`,
  how: `accumulation that persists with depth, through ${dates} dates${withoutBeds(result?.beds.length ?? 0)}${withShared(result?.shared ?? [])}`,
  value: result?.clocks.length ?? null,
  sigma: null,
  unit: 'dates',
});

const withoutBeds = (beds: number): string =>
  beds === 0 ? '' : `; ${beds === 1 ? 'a bed' : `${beds} beds`} laid down at once left out`;

const withShared = (shared: HoleHistory['shared']): string =>
  shared
    .map(
      ({ group, dates }) =>
        `; ${dates.length === 1 ? 'one has' : `${dates.length} have`} ${errorCalled(group)}`,
    )
    .join('');

/** "the error of the reservoir offset shells", "the systematic error of the dates lab". */
function errorCalled(group: string): string {
  const doses = groupOfDoses(group);
  return doses === null
    ? `the error of the reservoir offset ${group}`
    : `the systematic error of the dates ${doses}`;
}

export const tellTogether = (holes: readonly string[], groups: readonly string[]): Told => ({
  label: `Age–depth ${holes.length === 1 ? 'model' : 'models'} of ${holes.join(', ')}`,
  how: `one chain, because dates share ${groups.map(errorCalled).join(' and ')}`,
  value: groups.length,
  sigma: null,
  unit: groups.length === 1 ? 'shared error' : 'shared errors',
});
