/** The pipe of a hole that is about to end: what went in, and what became of each item, the sampler and the gear. */
import {
  gearWords,
  type HoleState,
  itemsWords,
  reconcileHole,
  samplerWords,
} from '@stillstand/campaign/holes';
import { counted } from '@stillstand/output/words';
import { Mark } from '../../../parts/index.ts';
import './pipe-tally.css';

export function PipeTallyNote({ now }: { now: HoleState }) {
  const tally = reconcileHole(now, true);
  if (tally.into.length + tally.samplers.length + tally.gear.length === 0) return null;
  const { back, damaged, cut, left, lost, unaccounted } = tally;
  const fates = [
    ['Came back', back],
    ['Damaged', damaged],
    ['Cut', cut],
    ['Left', left],
    ['Lost', lost],
  ] as const;
  return (
    <section className="pipe-tally" aria-label="Pipe tally">
      <dl>
        <div>
          <dt>Into the string</dt>
          <dd>{counted(tally.into.length, 'item')}</dd>
        </div>
        {fates.map(([fate, items]) =>
          items.length === 0 ? null : (
            <div key={fate}>
              <dt>{fate}</dt>
              <dd>{itemsWords(items)}</dd>
            </div>
          ),
        )}
        {tally.samplers.map((sampler) => (
          <div key={sampler.row_id}>
            <dt>Sampler {sampler.sampler}</dt>
            <dd>{samplerWords(sampler)}</dd>
          </div>
        ))}
        {tally.gear.map((gear) => (
          <div key={gear.row_id}>
            <dt>{gear.gear}</dt>
            <dd>{gearWords(gear)}</dd>
          </div>
        ))}
      </dl>
      {unaccounted.length === 0 ? (
        <p>
          <Mark name="tick" size={18} /> Every item is accounted for.
        </p>
      ) : (
        <p className="caution" role="status">
          <Mark name="close" size={20} /> Not accounted for: {itemsWords(unaccounted)}. Record what became of
          each before you leave.
        </p>
      )}
    </section>
  );
}
