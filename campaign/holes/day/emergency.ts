/** Whom to call in an emergency, and where the rescuers must come: what the campaign knows, each with its source. */
import { degreesMinutes } from '../positions.ts';

/** A field day as it is written; a blank is null or empty. */
export interface EmergencyDay {
  date: string;
  emergency_contact: string | null;
  emergency_position: string | null;
  contacts: string | null;
}

interface Place {
  latitude_deg: number | null;
  longitude_deg: number | null;
}

interface Sourced {
  words: string;
  source: string;
}

export interface Emergency {
  /** Null where the campaign names none. */
  contact: Sourced | null;
  /** Whom to call ashore, where the day says. */
  ashore: Sourced | null;
  /** As written for the day, and of the hole or its site. Empty where none is known. */
  positions: readonly Sourced[];
}

/** What is said where no contact is known. */
export const LOCAL_NUMBER =
  '112 (Europe) or your local emergency number. Common practice: check the local number.';

/** `day` is `2024-03-05`. Of an earlier day what was written last is taken, and its date said. */
export function emergencyOf(
  days: readonly EmergencyDay[],
  day: string,
  hole: ({ hole: string } & Place) | null,
  site: ({ site: string; frame: string | null } & Place) | null,
): Emergency {
  const known = days
    .filter(({ date }) => date <= day)
    .sort((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : 0));
  const lastSaid = (column: Exclude<keyof EmergencyDay, 'date'>): Sourced | null => {
    const said = known.find((d) => (d[column] ?? '').trim() !== '');
    if (said === undefined) return null;
    return {
      words: said[column]!.trim(),
      source: said.date === day ? 'written for today' : `written for ${said.date}, check it`,
    };
  };
  const written = lastSaid('emergency_position');
  const ofHole = placeWords(hole);
  const ofSite = placeWords(site);
  const frame = site?.frame == null || site.frame.trim() === '' ? 'WGS 84' : `in ${site.frame}, not WGS 84`;
  return {
    contact: lastSaid('emergency_contact'),
    ashore: lastSaid('contacts'),
    positions: [
      ...(written === null ? [] : [written]),
      ...(ofHole !== null
        ? [{ words: ofHole, source: `coordinates of hole ${hole!.hole}, ${frame}` }]
        : ofSite === null
          ? []
          : [{ words: ofSite, source: `coordinates of site ${site!.site}, ${frame}; the hole has none` }]),
    ],
  };
}

function placeWords(place: Place | null): string | null {
  if (place?.latitude_deg == null || place.longitude_deg === null) return null;
  return degreesMinutes(place.latitude_deg, place.longitude_deg);
}
