/** A new point from a dated sample that makes no claim yet. */
import type { Results } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Button, Dialog, Mark, printed, signed, useUnsaved } from '../../parts/index.ts';
import { type Store, useStore } from '../../store/index.ts';
import { IndicatorField } from './meaning-fields.tsx';

/** Dated samples without a point, as the results have them. */
export function samplesWithout(results: Results, store: Store): Results['samples'] {
  const claimed = new Set(store.rows('points').map((row) => row.cells['sample']?.trim()));
  return results.samples.filter((sample) => sample.dated && !claimed.has(sample.sample));
}

export function NewPoint({
  results,
  onMade,
  onClose,
}: {
  results: Results;
  onMade: (label: string) => void;
  onClose: () => void;
}) {
  const store = useStore();
  const samples = samplesWithout(results, store);
  const [sample, setSample] = useState<string | null>(samples.length === 1 ? samples[0]!.sample : null);
  const [cells, setCells] = useState<Record<string, string>>({ indicator: '' });
  useUnsaved(Object.values(cells).some((typed) => typed !== ''));
  const make = (): void => {
    if (sample === null) return;
    const label = freeLabel(store, sample);
    store.addRow('points', {
      kind: 'index',
      ...cells,
      point: label,
      sample,
      age_from: 'determination',
      status: 'accepted',
    });
    onMade(label);
  };
  return (
    <Dialog
      title="New point"
      onClose={onClose}
      foot={
        <Button kind="main" disabled={sample === null || cells['indicator'] === ''} onClick={make}>
          Make the point
        </Button>
      }
    >
      {samples.length === 0 ? (
        <p>
          Every dated sample has its point already. Date a sample first, or delete a point to make it again.
        </p>
      ) : (
        <div className="new-point">
          <fieldset>
            <legend>Dated sample without a point</legend>
            <ul>
              {samples.map((each) => (
                <li key={each.sample}>
                  <label>
                    <input
                      type="radio"
                      name="sample"
                      checked={sample === each.sample}
                      onChange={() => setSample(each.sample)}
                    />
                    <span>
                      <b>{each.sample}</b> {each.material ?? ''}
                      <br />
                      <span className="quiet">
                        {each.elevation_m === null
                          ? 'no elevation: its hole lacks one'
                          : `at ${signed(each.elevation_m.value, 2)} m`}
                        {datesOf(results, each.sample)}
                      </span>
                    </span>
                  </label>
                </li>
              ))}
            </ul>
          </fieldset>
          <IndicatorField
            value={cells['indicator'] ?? ''}
            onChoose={(chosen) => setCells({ ...cells, ...chosen })}
          />
          <p className="quiet">
            <Mark name="note" size={16} /> The kind of deposit fills in its limits in tide words; they can be
            changed afterwards.
          </p>
        </div>
      )}
    </Dialog>
  );
}

function datesOf(results: Results, sample: string): string {
  const dates = results.dates.filter((date) => date.sample === sample);
  return dates
    .map(
      (date) =>
        `; ${printed(date.median_cal_bp, 0)} cal BP (${date.lab_code}${date.status === 'rejected' ? ', rejected' : ''})`,
    )
    .join('');
}

/** "P-" and the sample, with a number behind where that is taken. */
function freeLabel(store: Store, sample: string): string {
  const taken = new Set(store.rows('points').map((row) => row.cells['point']?.trim()));
  const label = `P-${sample}`;
  for (let n = 2; ; n++) {
    const tried = n === 2 && !taken.has(label) ? label : `${label}-${n}`;
    if (!taken.has(tried)) return tried;
  }
}
