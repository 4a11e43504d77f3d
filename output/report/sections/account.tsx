/** Every pipe in and out: the fate of each item, counted by hole. */
import { itemsWords } from '@stillstand/campaign/holes';
import type { HoleResult, Results } from '@stillstand/campaign/results';
import { Tick } from '../marks.tsx';
import { each, words } from '../quantity.tsx';

export function Account({ results }: { results: Results }) {
  const holes = results.holes.filter((hole) => hole.account.length > 0);
  if (holes.length === 0) return <p>No pipe was recorded.</p>;
  return (
    <table className="grouped account">
      <thead>
        <tr>
          <th>hole</th>
          <th className="n">items in</th>
          <th>fate</th>
          <th className="n">items</th>
          <th>which</th>
        </tr>
      </thead>
      {each(holes, (hole) => (
        <tbody>
          {each(byFate(hole), ({ fate, items }, i) => (
            <tr className={i === 0 ? '' : 'more'}>
              <td className="id">{i === 0 ? hole.hole : ''}</td>
              <td className="n">{i === 0 ? hole.account.length : ''}</td>
              <td>
                {isOut(fate) ? <Tick /> : null} {words(fate)}
              </td>
              <td className="n">{items.length}</td>
              <td>{itemsWords(items.map(({ item, joint }) => ({ item, label: joint })))}</td>
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  );
}

type Item = HoleResult['account'][number];

function byFate(hole: HoleResult): { fate: string; items: Item[] }[] {
  const fates = [...new Set(hole.account.map((item) => item.fate))];
  return fates.map((fate) => ({ fate, items: hole.account.filter((item) => item.fate === fate) }));
}

const isOut = (fate: string) => /^(out|removed|recovered|pulled)/.test(fate);
