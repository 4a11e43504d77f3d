/** Who writes on this device, with its name, its clock and its chance. */
import type { Writer } from '@stillstand/campaign/replica';

/** An opaque random identity. */
export function newRowId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return `r-${Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

/** A moment as ISO 8601 to the second with the offset of this device's clock from UTC. */
export function timeWithOffset(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const two = (n: number): string => String(Math.trunc(n)).padStart(2, '0');
  const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, 19);
  return `${local}${minutes < 0 ? '-' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;
}

/** The day by the clock of this device, ISO 8601. */
export const today = (): string => timeWithOffset(new Date()).slice(0, 10);

/** Stated once, kept with every reading. */
type Crew = ReturnType<Writer['crew']>;

const CREW_KEY = 'stillstand.crew';

export function crew(): Crew {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(CREW_KEY) ?? '{}');
    const { by, device } = (kept ?? {}) as { by?: unknown; device?: unknown };
    return { by: typeof by === 'string' ? by : '', device: typeof device === 'string' ? device : '' };
  } catch {
    return { by: '', device: '' };
  }
}

export const setCrew = (who: Crew): void => localStorage.setItem(CREW_KEY, JSON.stringify(who));

/** Who writes, where that is said: a worker cannot ask the device. */
export const writerFor = (who: Crew): Writer => ({ ...writer, crew: () => who });

export const writer: Writer = { crew, time: () => timeWithOffset(new Date()), newRowId };
