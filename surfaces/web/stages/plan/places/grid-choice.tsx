/** The national grid in which easting and northing of this campaign are read: a known one, or a definition pasted. */
import { useId, useState } from 'react';
import { Field, typedKeys } from '../../../parts/index.ts';
import { useGridFound, useKnownGrids } from '../../../positions/index.ts';
import { useStore } from '../../../store/index.ts';

export function GridChoice() {
  const store = useStore();
  const kept = store.setting('position_grid') ?? '';
  const [typed, setTyped] = useState(kept);
  const [before, setBefore] = useState(kept);
  const id = useId();
  const known = useKnownGrids();
  const found = useGridFound(typed);
  // Another device, or undo.
  if (before !== kept) {
    setBefore(kept);
    setTyped(kept);
  }
  const commit = (): void => {
    if (typed.trim() !== kept) store.setSetting('position_grid', typed.trim());
  };
  return (
    <div>
      <Field
        name="National grid"
        help={{
          about:
            'Easting and northing of a position are read in it: E 401234 N 712345. Choose one by its EPSG code, or paste a PROJ string or WKT. Empty: degrees and UTM only. Positions already written keep their degrees',
          source: 'EPSG Geodetic Parameter Dataset. No height is taken from it',
        }}
        fault={found?.ok === false ? `Found “${typed}”; expected ${found.expected}. ${found.fix}` : null}
      >
        {(input) => (
          <>
            <input
              {...input}
              list={id}
              value={typed}
              disabled={store.readOnly}
              autoComplete="off"
              spellCheck={false}
              onChange={(event) => setTyped(event.target.value)}
              onBlur={commit}
              onKeyDown={typedKeys(typed !== kept, commit, () => setTyped(kept))}
            />
            <datalist id={id}>
              {known.map(({ code, name }) => (
                <option key={code} value={`EPSG:${code}`}>
                  {name}
                </option>
              ))}
            </datalist>
          </>
        )}
      </Field>
      {found?.ok === true ? (
        <p className="quiet small" role="status">
          {found.grid.name}
          {found.grid.caution === null ? '' : `: ${found.grid.caution}`}.
        </p>
      ) : null}
    </div>
  );
}
