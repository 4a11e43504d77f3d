/** How wide a core is before anybody has measured it, as it would be typed. */

import type { Core } from '@stillstand/campaign/chain';
import type { LengthOptions } from '@stillstand/campaign/tables';
import type { Store } from '../../../store/index.ts';
import { writtenCell } from '../length.ts';

/** Width of a core before it is measured on its picture: the bore of the run's sampler, else 5 cm (common practice, no source). */
export function coreWidth(
  store: Pick<Store, 'rows'>,
  hole: string,
  core: Pick<Core, 'basis' | 'run'>,
  options: LengthOptions,
): string {
  const run = store
    .rows('runs')
    .find(({ cells }) => cells['hole']?.trim() === hole && cells['run']?.trim() === core.run);
  const name = (core.basis === 'run' && run?.cells['sampler']?.trim()) || null;
  const sampler = store.rows('samplers').find(({ cells }) => cells['sampler']?.trim() === name);
  const bore_mm = Number(sampler?.cells['bore_mm']?.replace(',', '.'));
  return writtenCell(bore_mm > 0 ? bore_mm / 1000 : 0.05, 'm', options);
}
