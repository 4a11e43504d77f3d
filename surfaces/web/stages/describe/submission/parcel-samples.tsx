/** Samples that may go into a parcel, each with how much goes and a note for the laboratory. */
import { custodyWords } from '@stillstand/campaign/chain';
import type { ParcelSample, ToSend } from '@stillstand/output/lists';
import { useState } from 'react';
import { Button, counted } from '../../../parts/index.ts';

export function ParcelSamples({
  toSend,
  chosen,
  onChoose,
}: {
  toSend: readonly ToSend[];
  /** By label, in the order of choosing. */
  chosen: ReadonlyMap<string, ParcelSample>;
  onChoose: (chosen: ReadonlyMap<string, ParcelSample>) => void;
}) {
  const [withDated, setWithDated] = useState(false);
  const dated = toSend.filter(({ hasResult }) => hasResult).length;
  const listed = toSend.filter(({ row, hasResult }) => withDated || !hasResult || chosen.has(row.sample));
  const again = toSend.flatMap(({ row, custody }) =>
    chosen.has(row.sample) && custody.results.unentered > 0 ? [row.sample] : [],
  );
  const choose = ({ row, purpose }: ToSend): void => {
    const next = new Map(chosen);
    // A plan that says what for asks for that.
    if (!next.delete(row.sample))
      next.set(row.sample, { sample: row.sample, request: purpose, amount: '', note: '' });
    onChoose(next);
  };
  const change = (sample: ParcelSample): void => onChoose(new Map(chosen).set(sample.sample, sample));
  return (
    <>
      <ul className="parcel-samples" aria-label="Samples to send">
        {listed.map((one) => {
          const { row, custody, purpose } = one;
          const own = chosen.get(row.sample);
          return (
            <li key={row.row_id}>
              <label title={`Choose ${row.sample}`}>
                <input type="checkbox" checked={own !== undefined} onChange={() => choose(one)} />
                <span>
                  <b>{row.sample}</b>{' '}
                  <span className="quiet">
                    {[row.material, purpose === '' ? null : `planned for ${purpose}`, custodyWords(custody)]
                      .filter(Boolean)
                      .join(', ')}
                  </span>
                </span>
              </label>
              {own === undefined ? null : (
                <>
                  <input
                    aria-label={`Amount of ${row.sample}`}
                    title="What goes, and how much: mass, length, the whole"
                    placeholder="amount"
                    value={own.amount}
                    autoComplete="off"
                    onChange={({ target }) => change({ ...own, amount: target.value })}
                  />
                  <input
                    aria-label={`Note on ${row.sample}`}
                    title="A note for the laboratory"
                    placeholder="note for the laboratory"
                    value={own.note}
                    autoComplete="off"
                    onChange={({ target }) => change({ ...own, note: target.value })}
                  />
                </>
              )}
            </li>
          );
        })}
      </ul>
      {again.length === 0 ? null : (
        <p className="quiet" role="status">
          {again.join(', ')}: a result without an entry is there already and would end the wait at once.
          Record it first, with its date, to wait for another.
        </p>
      )}
      {dated === 0 ? null : (
        <p className="acts">
          <Button aria-pressed={withDated} onClick={() => setWithDated(!withDated)}>
            {withDated ? 'Hide samples with results' : 'Show samples with results'}
          </Button>
          <span className="quiet">{counted(dated, 'sample has', 'samples have')} a result already.</span>
        </p>
      )}
    </>
  );
}
