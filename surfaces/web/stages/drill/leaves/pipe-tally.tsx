/** The pipe of a hole that is about to end: what went in, and what became of each item, the sampler and the gear. */

import {
  gearWords,
  type HoleState,
  itemsWords,
  reconcileHole,
  samplerWords,
} from '@stillstand/campaign/holes';
import { t, translated } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import './pipe-tally.css';

export function PipeTallyNote({ now }: { now: HoleState }) {
  const tally = reconcileHole(now, true);
  if (tally.into.length + tally.samplers.length + tally.gear.length === 0) return null;
  const { back, damaged, cut, left, lost, unaccounted } = tally;
  const fates = [
    [t`Came back`, back],
    [t`Damaged`, damaged],
    [t`Cut`, cut],
    [t`Left`, left],
    [t`Lost`, lost],
  ] as const;
  return (
    <section className="pipe-tally" aria-label={t`Pipe tally`}>
      <dl>
        <div>
          <dt>{t`Into the string`}</dt>
          <dd>{tally.into.length === 1 ? t`1 item` : t`${tally.into.length} items`}</dd>
        </div>
        {fates.map(([fate, items]) =>
          items.length === 0 ? null : (
            <div key={fate}>
              <dt>{fate}</dt>
              <dd>{itemsSaid(items)}</dd>
            </div>
          ),
        )}
        {tally.samplers.map((sampler) => (
          <div key={sampler.row_id}>
            <dt>
              {t`Sampler`} {sampler.sampler}
            </dt>
            <dd>{translated(samplerWords(sampler))}</dd>
          </div>
        ))}
        {tally.gear.map((gear) => (
          <div key={gear.row_id}>
            <dt>{gear.gear}</dt>
            <dd>{translated(gearWords(gear))}</dd>
          </div>
        ))}
      </dl>
      {unaccounted.length === 0 ? (
        <p>
          <Mark name="tick" size={18} /> {t`Every item is accounted for.`}
        </p>
      ) : (
        <p className="caution" role="status">
          <Mark name="close" size={20} />{' '}
          {t`Not accounted for: ${itemsSaid(unaccounted)}. Record what became of each before you leave.`}
        </p>
      )}
    </section>
  );
}

const itemsSaid = (items: Parameters<typeof itemsWords>[0]): string =>
  itemsWords(items).split('; ').map(translated).join('; ');
