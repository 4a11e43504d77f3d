/** Where the pipe of the campaign is when it ends, with its samplers and gear: what is in stock, and what did not come back. */
import { type CampaignPipe, gearWords, samplerWords, whereWords } from '@stillstand/campaign/holes';
import { printed } from '@stillstand/output/words';
import { each, words } from '../quantity.tsx';

export function Whereabouts({ pipe: { items, totals, samplers, gear } }: { pipe: CampaignPipe }) {
  return (
    <>
      {items.length === 0 ? null : <Items items={items} totals={totals} />}
      {samplers.length + gear.length === 0 ? null : (
        <>
          <h3>Samplers and gear</h3>
          <table className="whole">
            <thead>
              <tr>
                <th>what</th>
                <th>kind</th>
                <th className="n">how many</th>
                <th>marks</th>
                <th>where</th>
              </tr>
            </thead>
            <tbody>
              {each(samplers, (sampler) => (
                <tr>
                  <td className="id">{sampler.sampler}</td>
                  <td>sampler{sampler.kind === null ? '' : `, ${sampler.kind}`}</td>
                  <td className="n">1</td>
                  <td />
                  <td>{samplerWords(sampler)}</td>
                </tr>
              ))}
              {each(gear, (one) => (
                <tr>
                  <td className="id">{one.gear}</td>
                  <td>{one.kind ?? ''}</td>
                  <td className="n">{one.count ?? ''}</td>
                  <td>{one.marks ?? ''}</td>
                  <td>{gearWords(one)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </>
  );
}

function Items({ items, totals }: Pick<CampaignPipe, 'items' | 'totals'>) {
  return (
    <>
      <h3>Where each item is</h3>
      <table className="whole">
        <thead>
          <tr>
            <th>item</th>
            <th>where</th>
            <th className="n">items</th>
            <th className="n">length, m</th>
            <th>which</th>
          </tr>
        </thead>
        <tbody>
          {each(totals, ({ item, whereabouts, items: count, length_m }) => (
            <tr>
              <td>{words(item)}</td>
              <td>{whereabouts === 'missing' ? 'not accounted for' : whereabouts}</td>
              <td className="n">{count}</td>
              <td className="n">{printed(length_m, 2)}</td>
              <td>{listed(items.filter((i) => i.item === item && i.whereabouts === whereabouts))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** "A1, A2 pulled from T1; B1 pulled from T2"; what is in stock needs no place. */
function listed(items: CampaignPipe['items']): string {
  return [...Map.groupBy(items, whereWords)]
    .map(([where, of]) => {
      const labels = of.map(({ label }) => label).join(', ');
      return where === 'in stock' ? labels : `${labels} ${where}`;
    })
    .join('; ');
}
