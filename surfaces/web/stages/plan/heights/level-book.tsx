/** The level book of the campaign: one loop at a time, typed as on paper, its sums and misclosure drawn as it grows. */
import { useState } from 'react';
import { Button } from '../../../parts/index.ts';
import { draftsOf, useStore } from '../../../store/index.ts';
import './level-book.css';
import { hasLines, placeOfLoop } from './level-kept.ts';
import { loopsIn } from './level-lines.ts';
import { METHODS, useMethod } from './level-method.ts';
import { LoopPage } from './loop-page.tsx';

export function LevelBook() {
  const store = useStore();
  const loops = loopsIn(store.rows('levelling'));
  const [chosen, choose] = useState<string | null>(null);
  const [method, setMethod] = useMethod();
  const [recorded, setRecorded] = useState('');
  const hasNew = hasLines(draftsOf(store.id).read(placeOfLoop('')), store.rows('levelling'));
  const loop = chosen ?? (hasNew ? '' : (loops.at(-1) ?? ''));
  return (
    <section className="level-book" aria-labelledby="level-book-title">
      <header>
        <h2 id="level-book-title">Level book</h2>
        <label>
          Loop{' '}
          <select
            title="The levelling loop that is shown: one that is recorded, or a new one"
            value={loop}
            onChange={(event) => {
              setRecorded('');
              choose(event.target.value);
            }}
          >
            {loops.map((label) => (
              <option key={label} value={label}>
                {label}
              </option>
            ))}
            {store.readOnly && loops.length > 0 ? null : <option value="">New loop</option>}
          </select>
        </label>
        <fieldset className="method">
          <legend className="unseen">Method of reduction</legend>
          {METHODS.map(([name, words]) => (
            <Button key={name} aria-pressed={method === name} onClick={() => setMethod(name)}>
              {words}
            </Button>
          ))}
        </fieldset>
      </header>
      {recorded === '' ? null : <p role="status">{recorded}</p>}
      <LoopPage
        key={loop}
        loop={loop}
        method={method}
        onRecorded={(label, words) => {
          setRecorded(words);
          choose(label);
        }}
      />
    </section>
  );
}
