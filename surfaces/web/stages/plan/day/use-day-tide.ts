/** The tide at a site and of one day of it, worked out again only where something they are made from has changed. */
import { type SiteTide, siteTide } from '@stillstand/campaign/steps';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { type DayTide, dayTide, type Way } from '../../../days/index.ts';

/** On the datum of the campaign; null until the campaign is read. `site` is null where none is known. */
export function useSiteTide(site: string | null): SiteTide | null {
  const { campaign, results } = useComputation();
  const datum = results?.datum.label ?? '';
  return useMemo(() => (campaign === null ? null : siteTide(campaign, site, datum)), [campaign, site, datum]);
}

export function useDayTide(
  tide: SiteTide | null,
  date: string,
  offset_min: number,
  way: Way | null,
): DayTide | null {
  // By what it says: it is read from the cells of the day each time.
  const said = JSON.stringify(way);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `said` is of the way
  return useMemo(
    () => (tide === null ? null : dayTide(tide, date, offset_min, way)),
    [tide, date, offset_min, said],
  );
}
