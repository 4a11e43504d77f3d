/** Tide levels of a site, typed or pasted in place, with those that its gauge gives. */

import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { useComputation } from '../../../../compute/index.ts';
import { type DocRow, useStore } from '../../../../store/index.ts';
import { ComputedLevels } from './computed-levels.tsx';
import { LevelLine } from './level-line.tsx';
import {
  isEmpty,
  type LevelCells,
  type LevelEntry,
  pastedLevels,
  shownLevels,
  typedCells,
} from './level-rows.ts';
import './tide-levels.css';

export function TideLevels() {
  const store = useStore();
  const { results } = useComputation();
  const sites = store.rows('sites').flatMap(({ cells }) => cells['site']?.trim() || []);
  const [chosen, setChosen] = useState<string | null>(null);
  const site = chosen !== null && sites.includes(chosen) ? chosen : (sites[0] ?? '');
  const [asked, setAsked] = useState<ReadonlySet<string>>(new Set());
  const [unread, setUnread] = useState<readonly { line: number; text: string }[]>([]);

  const zero = results?.datum.label ?? '';
  const entered = new Map<string, DocRow>();
  for (const row of store.rows('tide_levels')) {
    const level = row.cells['level']?.trim().toUpperCase() ?? '';
    if ((row.cells['site']?.trim() ?? '') === site && !entered.has(level)) entered.set(level, row);
  }
  const computed = results?.tides.find((of) => of.site === site)?.levels ?? [];
  const known = new Set([...entered.keys(), ...computed.map(({ level }) => level)]);
  const shown = shownLevels(known, asked);
  const others = TIDE_LEVELS.filter((level) => !shown.includes(level));
  const datumOf = (row: DocRow | undefined): string => row?.cells['datum']?.trim() || zero;
  // What is entered next is on the datum of what is there.
  const [newDatum, setNewDatum] = useState<string | null>(null);
  const datum = newDatum ?? datumOf(entered.values().next().value);
  const datums = store.rows('datums').flatMap(({ cells }) => cells['datum']?.trim() || []);

  const write = (level: string, cells: Partial<LevelCells>): void => {
    const row = entered.get(level);
    const next = { ...typedCells(row), ...cells };
    if (row === undefined) {
      if (!isEmpty(next)) store.addRow('tide_levels', { site, level, datum, ...plainCells(next) });
    } else if (isEmpty(next)) store.removeRow('tide_levels', row.row_id);
    else store.editRow('tide_levels', row.row_id, plainCells(cells));
  };
  const paste = (from: { level: string; entry: LevelEntry }, text: string): boolean => {
    const block = pastedLevels(text, from, shown);
    if (block === null) return false;
    store.together(() => {
      for (const { level, cells } of block.levels) write(level, cells);
    });
    setUnread(block.unread);
    return true;
  };

  return (
    <section className="tide-levels" aria-labelledby="tide-levels-title">
      <header>
        <h2 id="tide-levels-title">Tide levels</h2>
        {sites.length < 2 ? null : (
          <label>
            Site{' '}
            <select
              title="The site whose tide levels are shown: each site has its own"
              value={site}
              onChange={(event) => setChosen(event.target.value)}
            >
              {sites.map((label) => (
                <option key={label} value={label}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        )}
        {datums.length < 2 || store.readOnly ? null : (
          <label>
            Enter on{' '}
            <select
              title="The datum of the elevations that are entered next; those already entered keep theirs"
              value={datum}
              onChange={(event) => setNewDatum(event.target.value)}
            >
              {datums.map((label) => (
                <option key={label} value={label}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        )}
      </header>
      {site === '' ? (
        <p className="quiet">Add a site first: tide levels are a site’s own.</p>
      ) : (
        <>
          <div className="grid-scroll">
            <table className="cell-grid">
              <caption>
                metres{datum === '' || datum === 'as stated' ? '' : ` above ${datum}`}; computed ±2σ
                {zero === '' || zero === datum || zero === 'as stated' ? '' : ` above ${zero}`}
              </caption>
              <thead>
                <tr>
                  <th scope="col">level</th>
                  <th scope="col" className="number">
                    entered
                  </th>
                  <th scope="col" className="number">
                    1σ
                  </th>
                  <th scope="col">source</th>
                  <th scope="col" className="number">
                    computed
                  </th>
                </tr>
              </thead>
              <tbody>
                {shown.map((level) => {
                  const row = entered.get(level);
                  const own = datumOf(row);
                  return (
                    <LevelLine
                      key={`${site} ${level}`}
                      level={level}
                      cells={typedCells(row)}
                      datum={row === undefined || own === datum ? '' : own}
                      computed={computed.find((of) => of.level === level) ?? null}
                      problems={(results?.problems ?? []).filter(
                        ({ table, row_id, severity }) =>
                          row !== undefined &&
                          table === 'tide_levels' &&
                          row_id === row.row_id &&
                          // That both are there is seen in the line.
                          severity !== 'note',
                      )}
                      readOnly={store.readOnly}
                      onCommit={(cells) => write(level, cells)}
                      onPaste={(entry, text) => paste({ level, entry }, text)}
                    />
                  );
                })}
              </tbody>
            </table>
          </div>
          {unread.length === 0 ? null : (
            <p className="says-why" role="alert">
              Not entered, no tide level named:{' '}
              {unread.map(({ line, text }) => `line ${line} “${text}”`).join('; ')}. Begin each line with HAT,
              MHW, MSL, LAT or another level.
            </p>
          )}
          {store.readOnly || others.length === 0 ? null : (
            <label className="more-levels">
              Show level{' '}
              <select
                title="Another tide level, to be entered for this site"
                value=""
                onChange={(event) => setAsked((before) => new Set(before).add(event.target.value))}
              >
                <option value="">choose</option>
                {others.map((level) => (
                  <option key={level} value={level}>
                    {level}
                  </option>
                ))}
              </select>
            </label>
          )}
          <ComputedLevels site={site} />
        </>
      )}
    </section>
  );
}

/** A true minus is for the eye. */
const plainCells = (cells: Partial<LevelCells>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(cells).map(([entry, text]) => [entry, entry === 'source' ? text : text.replace('−', '-')]),
  );
