/** Samples planned in what came up: where to cut each, taken by one press. */

import {
  coresOf,
  cutOf,
  cutReach,
  plannedSamples,
  plannedWhere,
  takenCells,
} from '@stillstand/campaign/chain';
import type { HoleState } from '@stillstand/campaign/holes';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { t } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import '../forms/choices.css';

/** More than fit next to the log are reached one after the other. */
const SHOWN = 3;

/** The place of a core in the ground is that of the depth model so far; it moves with the readings to come. */
export function PlannedHere({
  store,
  now,
  onSaid,
}: {
  store: DrillStore;
  now: HoleState;
  onSaid: (words: string) => void;
}) {
  const { campaign, results } = useComputation();
  const { hole } = now.row;
  const result = results?.holes.find((h) => h.hole === hole);
  const cuts = useMemo(() => {
    if (campaign === null || result === undefined) return [];
    // Without a core in hand there is nothing to cut.
    const cores = coresOf(result).filter(({ run }) => run !== '');
    return plannedSamples(campaign).flatMap(({ row, state }) => {
      const cut = state !== 'taken' && row.hole === result.hole ? cutOf(row, cores) : null;
      return cut === null ? [] : [{ row, cut }];
    });
  }, [campaign, result]);
  if (store.readOnly) return null;
  // One just taken is in the table before it is in the computation: a second press would take it twice.
  const taken = new Set(store.rows('samples').map(({ cells }) => cells['sample']?.trim()));
  const here = cuts.filter(({ row }) => !taken.has(row.sample));
  if (here.length === 0) return null;
  return (
    <fieldset className="choices planned-here">
      <legend>{t`Planned in these cores`}</legend>
      {here.slice(0, SHOWN).map(({ row, cut }) => {
        const { run } = cut.core;
        const reach = cutReach(cut, now.units.core);
        return (
          <button
            key={row.row_id}
            type="button"
            onClick={() => {
              store.addRow('samples', takenCells(row, cut, now.units.core));
              onSaid(t`${row.sample} taken from ${run}, ${reach}.`);
            }}
          >
            <Mark name="sample" size={20} />
            <span>
              {t`Take ${row.sample}`}
              <small>
                {t`Planned here: ${plannedWhere(row)}. Cut ${run} at ${reach}.`} {row.material ?? ''}
              </small>
            </span>
          </button>
        );
      })}
    </fieldset>
  );
}
