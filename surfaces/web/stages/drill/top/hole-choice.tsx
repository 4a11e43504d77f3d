/** Which hole: the list of them, and the start of a new one. */

import { useState } from 'react';
import { t } from '../../../language/index.ts';
import { Button } from '../../../parts/index.ts';
import type { Store } from '../../../store/index.ts';
import './hole-choice.css';

export function HoleList({
  store,
  current,
  onHole,
}: {
  store: Store;
  current: string | null;
  onHole: (hole: string) => void;
}) {
  return (
    <ul className="hole-list">
      {store
        .rows('holes')
        .filter((h) => (h.cells['hole'] ?? '') !== '')
        .map((h) => (
          <li key={h.row_id}>
            <button
              type="button"
              aria-current={h.cells['hole'] === current}
              onClick={() => onHole(h.cells['hole']!)}
            >
              <strong>{h.cells['hole']}</strong>
              <span>
                {h.cells['state'] ?? 'planned'}
                {h.cells['replaces'] ? t`, replaces ${h.cells['replaces']}` : ''}
                {h.cells['method'] && h.cells['method'] !== 'string' ? `, ${h.cells['method']}` : ''}
              </span>
            </button>
          </li>
        ))}
    </ul>
  );
}

/** In place of the screen, while there is no hole. */
export function NoHole({
  store,
  onHole,
  onPlan,
}: {
  store: Store;
  onHole: (hole: string) => void;
  onPlan: () => void;
}) {
  return (
    <section className="no-hole">
      <h2>{t`No hole yet`}</h2>
      <p>{t`Drill needs a hole with a label. Site, reference and pipe can be added in Plan, now or later.`}</p>
      <StartHole store={store} onHole={onHole} />
      <p>
        <Button onClick={onPlan}>{t`Go to Plan`}</Button>
      </p>
      {store.rows('holes').length > 0 ? <HoleList store={store} current={null} onHole={onHole} /> : null}
    </section>
  );
}

const METHODS = {
  string: t`a string of pipe`,
  tube: t`a tube`,
  chamber: t`a chamber`,
  gouge: t`a gouge`,
  hand: t`by hand`,
};

/** A hole needs no more than a label; pipe and site are those used last. */
export function StartHole({ store, onHole }: { store: Store; onHole: (hole: string) => void }) {
  const [method, setMethod] = useState('string');
  const [isGround, setGround] = useState('');
  const labels = new Set(store.rows('holes').map((h) => h.cells['hole']?.trim() ?? ''));
  const [label, setLabel] = useState(() => {
    for (let i = labels.size + 1; ; i++) if (!labels.has(`H${i}`)) return `H${i}`;
  });
  const last = (table: 'pipes' | 'sites', column: string) => store.rows(table).at(-1)?.cells[column];
  const pipe = store.rows('holes').findLast((h) => h.cells['pipe'])?.cells['pipe'] ?? last('pipes', 'pipe');
  const site = store.rows('holes').findLast((h) => h.cells['site'])?.cells['site'] ?? last('sites', 'site');
  const hole = label.trim();
  const taken = labels.has(hole);
  return (
    <p className="start-hole">
      <label htmlFor="new-hole">{t`Label of a new hole`}</label>
      <input id="new-hole" value={label} autoComplete="off" onChange={(e) => setLabel(e.target.value)} />
      <label htmlFor="new-method">{t`made with`}</label>
      <select id="new-method" value={method} onChange={(e) => setMethod(e.target.value)}>
        {Object.entries(METHODS).map(([value, word]) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
      <label htmlFor="new-ground">{t`begins at the living ground`}</label>
      <select
        id="new-ground"
        aria-describedby="new-ground-means"
        value={isGround}
        onChange={(e) => setGround(e.target.value)}
      >
        <option value="">{t`not stated`}</option>
        <option value="yes">{t`yes`}</option>
        <option value="no">{t`no`}</option>
      </select>
      <small id="new-ground-means" className="quiet">
        {t`Yes where nothing was dug or washed away, as on a marsh: the top is then of the year of coring.`}
      </small>
      <Button
        mark="plus"
        disabled={hole === '' || taken || store.readOnly}
        onClick={() => {
          store.addRow('holes', {
            hole,
            method,
            state: 'planned',
            ...(pipe === undefined || method !== 'string' ? {} : { pipe }),
            ...(site === undefined ? {} : { site }),
            ...(isGround === '' ? {} : { top_is_ground: isGround }),
          });
          onHole(hole);
        }}
      >
        {taken ? t`${hole} is taken` : t`Start a hole`}
      </Button>
    </p>
  );
}
