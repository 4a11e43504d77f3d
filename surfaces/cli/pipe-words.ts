/** A pipe named on the command line: by its size, or by its measures. */
import { pipeSizes } from '@stillstand/published/vocabularies';
import type { PipeKind } from '@stillstand/science/rig';
import { type Words, WrongUse } from './command.ts';

export const PIPE_OPTIONS = {
  pipe: { type: 'string', value: 'SIZE', about: 'nominal size in inches, such as 3 or "2 1/2"' },
  schedule: { type: 'string', value: '40|80', about: 'schedule of that size; 40 if not given' },
  'outside-mm': { type: 'string', value: 'MM', about: 'outside diameter, instead of a size' },
  'wall-mm': { type: 'string', value: 'MM', about: 'wall, with the outside diameter' },
  mass: { type: 'string', value: 'KG/M', about: 'mass, where the maker states it' },
} as const;

/** The pipe of the options, or null where none is named. */
export function pipeWords(words: Words): PipeKind | null {
  const mass = words.number('mass', { min: 0.1, max: 1000 }) ?? null;
  const outside = words.number('outside-mm', { min: 10, max: 1000 });
  const wall = words.number('wall-mm', { min: 0.5, max: 100 });
  const size = words.text('pipe');
  if (outside !== undefined && wall !== undefined) {
    if (2 * wall >= outside) throw new WrongUse(`--wall-mm: ${wall} leaves no bore in ${outside} mm`);
    return { outside_diameter_mm: outside, wall_mm: wall, mass_kg_per_m: mass };
  }
  if (outside !== undefined || wall !== undefined) throw new WrongUse('Expected --outside-mm with --wall-mm');
  if (size === undefined) return null;
  const schedule = words.number('schedule') ?? 40;
  const found = pipeSizes.find(
    (p) => p.nps === size.replace(/\s*(in|")$/, '').trim() && p.schedule === schedule,
  );
  if (found === undefined) {
    const sizes = [...new Set(pipeSizes.map((p) => p.nps))].join(', ');
    throw new WrongUse(`--pipe: found “${size}” schedule ${schedule}, expected ${sizes}, schedule 40 or 80`);
  }
  return {
    outside_diameter_mm: found.outside_diameter_mm,
    wall_mm: found.wall_mm,
    mass_kg_per_m: mass ?? found.mass_kg_per_m,
  };
}
