import type { HoleResult } from '@stillstand/campaign/results';

/** Whether the base of a unit was seen: the lowest one goes on unless its contact is described. From the top down. */
export const isBaseSeen = (units: HoleResult['units'], i: number): boolean =>
  i < units.length - 1 || units[i]!.contact_below !== null;
