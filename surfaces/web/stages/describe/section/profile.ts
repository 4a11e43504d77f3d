/** A pasted profile of the ground: a distance and an elevation to a line, in metres. */

export interface PastedProfile {
  places: { distance_m: string; elevation_m: string }[];
  /** The first line that is none, with what is expected; null where all are read. */
  fault: string | null;
}

const NUMBER = /^[+-]?\d+(?:\.\d+)?$/;

/** A number as it is written in tables: a true minus, a decimal comma. Null where it is none. */
function numberOf(text: string): string | null {
  const plain = text.trim().replace('−', '-').replace(/^\+/, '').replace(/\s*m$/, '').replace(',', '.');
  return NUMBER.test(plain) ? plain : null;
}

/** Two cells of a line, parted by a tab, a semicolon, spaces, or a comma that is no decimal one. */
function cellsOf(line: string): string[] {
  const parted = /[\t;]/.test(line) ? line.split(/\s*[\t;]\s*/) : line.trim().split(/,\s+|\s+/);
  return parted.length === 1 ? line.split(',') : parted;
}

/** Headings before the first numbers are left out. */
export function profileOf(pasted: string): PastedProfile {
  const places: PastedProfile['places'] = [];
  const lines = pasted.split(/\r?\n/);
  for (const [i, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const cells = cellsOf(line);
    const [distance, elevation] = [numberOf(cells[0] ?? ''), numberOf(cells[1] ?? '')];
    if (cells.length >= 2 && distance !== null && elevation !== null) {
      places.push({ distance_m: distance, elevation_m: elevation });
      continue;
    }
    const isHeading = places.length === 0 && distance === null && elevation === null;
    if (!isHeading)
      return {
        places,
        fault: `Line ${i + 1}: found ${line.trim().slice(0, 60)}, expected distance and elevation in metres, such as 12.5 1.84`,
      };
  }
  return { places, fault: null };
}
