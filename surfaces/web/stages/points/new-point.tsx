/** A new point from a sample that makes no claim yet: a dated one, or one between dates. */
import type { Results } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Button, Dialog, Mark, printed, signed, useUnsaved } from '../../parts/index.ts';
import { type Store, useStore } from '../../store/index.ts';
import { AgeSource, BETWEEN, OWN_DATE } from './age-source.tsx';
import { IndicatorField } from './meaning-fields.tsx';

/** Dated samples without a point, as the results have them. */
export const samplesWithout = (results: Results, store: Store): Results['samples'] =>
  unclaimed(results, store).filter(({ dated }) => dated);

function unclaimed(results: Results, store: Store): Results['samples'] {
  const claimed = new Set(store.rows('points').map((row) => row.cells['sample']?.trim()));
  return results.samples.filter(({ sample }) => !claimed.has(sample));
}

/** Those without a date in a hole that has dates: they can be as old as their depth says. */
function amongDates(results: Results, store: Store): Results['samples'] {
  const holes = new Set(results.dates.map(({ hole }) => hole));
  return unclaimed(results, store).filter(
    ({ dated, hole, depth_m }) => !dated && hole !== null && depth_m !== null && holes.has(hole),
  );
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
  const undated = amongDates(results, store);
  const [sample, setSample] = useState<string | null>(samples.length === 1 ? samples[0]!.sample : null);
  const [source, setSource] = useState(OWN_DATE);
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
      age_from: source,
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
      {samples.length === 0 && undated.length === 0 ? (
        <p>
          Every dated sample has its point already. Date a sample first, or delete a point to make it again.
        </p>
      ) : (
        <div className="new-point">
          {samples.length === 0 ? null : (
            <Choice
              legend="Dated sample without a point"
              samples={samples}
              results={results}
              chosen={sample}
              onChoose={(chosen) => {
                setSample(chosen);
                setSource(OWN_DATE);
              }}
            />
          )}
          {undated.length === 0 ? null : (
            <Choice
              legend="Sample without a date, in a hole that has dates"
              samples={undated}
              results={results}
              chosen={sample}
              onChoose={(chosen) => {
                setSample(chosen);
                setSource(BETWEEN);
              }}
            />
          )}
          {sample === null ? null : <AgeSource sample={sample} value={source} onChoose={setSource} />}
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

function Choice({
  legend,
  samples,
  results,
  chosen,
  onChoose,
}: {
  legend: string;
  samples: Results['samples'];
  results: Results;
  chosen: string | null;
  onChoose: (sample: string) => void;
}) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      <ul>
        {samples.map((each) => (
          <li key={each.sample}>
            <label>
              <input
                type="radio"
                name="sample"
                checked={chosen === each.sample}
                onChange={() => onChoose(each.sample)}
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
