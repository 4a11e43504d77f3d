/** Which hole a screen opens on, when nobody has chosen one. */
import { hasEnded } from './rig-readings.ts';

export interface HoleOfCrew {
  hole: string;
  state: string | null;
  method: string | null;
  replaces: string | null;
}

/**
 * The hole the crew is at: an open one, else a suspended one, else a lost one that no hole replaces yet and that was
 * the last worked on, else the next planned, else the last. `lastWorked` is the hole of the newest reading.
 */
export function workingHole(holes: readonly HoleOfCrew[], lastWorked: string | null): string | null {
  const isReplaced = (hole: string): boolean => holes.some((h) => h.replaces === hole);
  const found =
    holes.findLast((h) => h.state === 'open') ??
    holes.findLast((h) => h.state === 'suspended') ??
    holes.find((h) => h.hole === lastWorked && h.state === 'lost' && !isReplaced(h.hole)) ??
    holes.find((h) => !hasEnded(h.state)) ??
    holes.findLast((h) => h.state === 'finished' && h.method === 'string') ??
    holes.at(-1);
  return found?.hole ?? null;
}
