/** What is to be said once the activities are known: of slices below their supported activity, and of the bottom. */
import { standardDeviation } from '@stillstand/science/base';
import type { Column } from './column.ts';
import { MOST_BELOW, type Models } from './models.ts';
import type { LeadFault, LeadSlice } from './profile.ts';
import { span } from './slices.ts';

/** So many sigma below the supported activity is no counting error. */
const FAR = 2;

export function doubtsOf(slices: readonly LeadSlice[], { cells }: Column, models: Models): LeadFault[] {
  const { best, draws } = models.readings;
  const faults = cells.flatMap((cell, i): LeadFault[] => {
    if (cell.slice === null || cell.slice !== cell.lead[0]) return [];
    const sigma = standardDeviation(draws.map(({ excess }) => excess[i]!));
    if (best.excess[i]! >= -FAR * sigma) return [];
    const { id, total } = slices[cell.slice]!;
    return [
      {
        code: 'below_supported',
        severity: 'warning',
        slice: id,
        found: `total lead-210 of ${total!.bq_kg} Bq/kg at ${span(cell)}, more than ${FAR} sigma below the supported activity`,
        expected: 'a total of at least the supported activity',
        fix: 'Check both activities and their units. It counts as measured until then.',
      },
    ];
  });
  return [...faults, ...aboutBelow(models)];
}

function aboutBelow({ below, below_share }: Models): LeadFault[] {
  if (below === null) return [];
  const isUsable = below_share <= MOST_BELOW;
  const share = Number.isFinite(below_share) ? `about ${Math.round(100 * below_share)} %` : 'an unknown part';
  return [
    {
      code: 'below',
      severity: isUsable ? 'warning' : 'error',
      slice: null,
      found: `the deepest slices still have unsupported lead-210; ${share} of the inventory lies below them`,
      expected: `slices down to where none is left, or at most ${100 * MOST_BELOW} % below`,
      fix: isUsable
        ? 'Measure deeper slices. What lies below is estimated until then, from the mean decline, within a factor of 1.6 (1 sigma).'
        : 'Measure deeper slices. Constant supply gives no age until then.',
    },
  ];
}
