/** The sample that the rows of a line are of. */
import { placeInCore } from './core-place.ts';
import type { Draft } from './draft.ts';
import type { Mapping } from './mapping.ts';
import { wordOf } from './own-cells.ts';
import type { samplesAt } from './samples-at.ts';

export interface Context {
  mapping: Mapping;
  samples: ReturnType<typeof samplesAt>;
  /** Our label of a core they name. */
  holeCalled(typed: string): string;
}

/** The sample of a line; its fault keeps the rows of the line from being used. */
export function sampled(draft: Draft, { mapping, samples, holeCalled }: Context): void {
  const { given } = draft;
  const place = placeInCore(given, mapping);
  const hole = wordOf(given, mapping, 'hole');
  const of = samples.of({
    line: given.line,
    label: draft.cells['sample'] ?? '',
    hole: hole === '' ? '' : holeCalled(hole),
    basis: wordOf(given, mapping, 'depth_basis'),
    run: wordOf(given, mapping, 'run'),
    place,
    material: wordOf(given, mapping, 'material'),
    note: place.notes.join('; '),
  });
  draft.tried.add('sample');
  if ('fault' in of) draft.faults.push(of);
  else draft.cells['sample'] = of.sample;
  for (const name of ['hole', 'depth_basis', 'run', 'top', 'bottom']) {
    if (draft.table !== 'samples') delete draft.cells[name];
  }
}
