/** Tidal constants as agencies list them: one a line, name, amplitude, phase lag; other columns are passed over. */
import { FOOT_M } from '@stillstand/science/base';
import { constituentNamed } from '@stillstand/science/tide';

export interface ReadConstants {
  constants: { constituent: string; amplitude_m: number; phase_deg: number }[];
  /** What is wrong, line by line, with what was expected. */
  faults: string[];
}

/**
 * Lines such as `M2 1.371 109.2`, with a number in front and the speed behind, separated by spaces, tabs, commas or
 * semicolons. Names that cannot be predicted with are kept too: they are left out of the prediction by name.
 */
export function readConstants(text: string, unit: 'm' | 'ft'): ReadConstants {
  const constants: ReadConstants['constants'] = [];
  const faults: string[] = [];
  const seen = new Set<string>();
  text.split(/\r?\n/).forEach((line, i) => {
    const typed = line.trim();
    if (typed === '') return;
    // A comma parts decimals only where something else parts the columns.
    const isSpaced = /[\t;]/.test(typed) || !/,\s/.test(typed);
    const cells = typed
      .split(isSpaced && /[\t; ]/.test(typed) ? /[\t; ]+/ : /[,\s]+/)
      .filter((cell) => cell !== '');
    if (/^\d+$/.test(cells[0] ?? '') && cells.length > 3) cells.shift();
    const at = cells.findIndex((cell) => /[A-Za-zΑ-ω]/.test(cell));
    const [amplitude, phase] = cells
      .slice(at + 1)
      .map((cell) => Number(cell.replace('−', '-').replace(',', '.')));
    const name = cells[at];
    const isRight =
      at === 0 &&
      name !== undefined &&
      amplitude !== undefined &&
      phase !== undefined &&
      amplitude >= 0 &&
      amplitude * (unit === 'ft' ? FOOT_M : 1) <= 15 &&
      Math.abs(phase) <= 360;
    if (!isRight) {
      // Headings of a pasted list.
      if (i === 0 && !cells.some((cell) => /^\d/.test(cell))) return;
      faults.push(`Line ${i + 1}: found “${typed}”; expected name, amplitude, phase, such as M2 1.37 109.2.`);
      return;
    }
    const constituent = constituentNamed(name)?.name ?? name;
    if (seen.has(constituent)) faults.push(`Line ${i + 1}: ${constituent} is listed twice.`);
    seen.add(constituent);
    constants.push({
      constituent,
      amplitude_m: unit === 'ft' ? amplitude * FOOT_M : amplitude,
      phase_deg: phase,
    });
  });
  return { constants, faults };
}
