/** Figures and tables that are left out of what is taken along. */
import { useCallback, useState } from 'react';
import { Mark } from '../../parts/index.ts';
import './choose.css';

/** Of the tables that can be left out; the report itself always has them all. */
export const TABLES = [
  ['holes.csv', 'Holes'],
  ['runs.csv', 'Runs'],
  ['units.csv', 'Units'],
  ['samples.csv', 'Samples'],
  ['dates.csv', 'Dates'],
  ['points.csv', 'Points, the sea-level table'],
  ['curve.csv', 'Curve'],
  ['intervals.csv', 'Rates over intervals'],
  ['problems.csv', 'Problems'],
  ['settings.csv', 'Settings'],
  ['account.csv', 'Pipe tally'],
] as const;

/** Names left out, kept on this device. */
export function useChoice(key: string): [readonly string[], (names: readonly string[]) => void] {
  const [names, setNames] = useState<readonly string[]>(() => {
    const kept = localStorage.getItem(key);
    return kept === null || kept === '' ? [] : kept.split('\n');
  });
  const set = useCallback(
    (next: readonly string[]) => {
      localStorage.setItem(key, next.join('\n'));
      setNames(next);
    },
    [key],
  );
  return [names, set];
}

export function Choose({
  title,
  items,
  leftOut,
  onChange,
}: {
  title: string;
  items: readonly { name: string; words: string; warns: boolean }[];
  leftOut: readonly string[];
  onChange: (leftOut: readonly string[]) => void;
}) {
  const taken = items.filter((item) => !leftOut.includes(item.name)).length;
  return (
    <details className="choose-parts">
      <summary>
        <h2>{title}</h2>{' '}
        <span className="quiet">
          {taken} of {items.length}
        </span>
      </summary>
      <ul>
        {items.map(({ name, words, warns }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={!leftOut.includes(name)}
                onChange={(event) =>
                  onChange(
                    event.target.checked ? leftOut.filter((each) => each !== name) : [...leftOut, name],
                  )
                }
              />
              <span>{words}</span>
              {warns ? <Mark name="close" size={15} label="warns" /> : null}
            </label>
          </li>
        ))}
      </ul>
    </details>
  );
}
