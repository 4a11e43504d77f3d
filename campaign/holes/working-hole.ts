/** Which hole a screen opens on, when nobody has chosen one. */
import { hasEnded } from './rig-readings.ts';

export interface HoleOfCrew {
  hole: string;
  state: string | null;
  method: string | null;
  replaces: string | null;
}

/**
 * The hole the crew is at: the last worked on while it goes on, or is lost and no hole replaces it yet; else an open one,
 * a suspended one, the next planned, the last. `lastWorked` is the hole of the newest reading.
 */
export function workingHole(holes: readonly HoleOfCrew[], lastWorked: string | null): string | null {
  const isReplaced = (hole: string): boolean => holes.some((h) => h.replaces === hole);
  const found =
    holes.find(
      (h) => h.hole === lastWorked && (h.state === 'lost' ? !isReplaced(h.hole) : !hasEnded(h.state)),
    ) ??
    holes.findLast((h) => h.state === 'open') ??
    holes.findLast((h) => h.state === 'suspended') ??
    holes.find((h) => !hasEnded(h.state)) ??
    holes.findLast((h) => h.state === 'finished' && h.method === 'string') ??
    holes.at(-1);
  return found?.hole ?? null;
}
