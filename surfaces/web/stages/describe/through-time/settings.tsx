/** What is drawn of a line through time: the ages of its sections, and what counts as the inner side of the edge. */
import type { Results } from '@stillstand/campaign/results';
import { SETTINGS } from '@stillstand/campaign/settings';
import { useState } from 'react';
import { Field, typedKeys } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { typedAges } from './ages-typed.ts';

export function ThroughTimeSettings({ results }: { results: Results }) {
  const store = useStore();
  // Begun again where another device or Undo has changed what is kept.
  return (
    <div className="through-settings">
      <Ages key={`ages ${store.setting('section_ages') ?? ''}`} kept={store.setting('section_ages') ?? ''} />
      <Inside
        key={`inside ${store.setting('edge_inside') ?? ''}`}
        kept={store.setting('edge_inside') ?? ''}
        results={results}
      />
    </div>
  );
}

function Ages({ kept }: { kept: string }) {
  const store = useStore();
  const [typed, setTyped] = useState(kept);
  const found = typedAges(typed);
  const commit = (): void => {
    if (found.ok && found.value !== kept) store.setSetting('section_ages', found.value);
  };
  return (
    <Field
      name="Ages of the sections"
      unit="cal BP"
      help={{
        about:
          'Ages at which the section is drawn as it was, separated by ;. Left empty, round ages are chosen that two holes reach',
        taken: 'one to six ages, −100 to 50,000 cal BP',
      }}
      fault={found.ok ? null : found.fault}
    >
      {(input) => (
        <input
          {...input}
          title="Ages at which the section is drawn as it was, such as 8000; 6000; 4000"
          value={typed}
          placeholder="chosen"
          disabled={store.readOnly}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={commit}
          onKeyDown={typedKeys(typed !== kept, commit, () => setTyped(kept))}
        />
      )}
    </Field>
  );
}

function Inside({ kept, results }: { kept: string; results: Results }) {
  const store = useStore();
  const [typed, setTyped] = useState(kept);
  const asSetting = typed
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '')
    .join('; ');
  const commit = (): void => {
    if (asSetting !== kept) store.setSetting('edge_inside', asSetting);
  };
  const unmet = results.problems.find(({ code }) => code === 'edge-not-met');
  return (
    <Field
      name="Inside of the edge"
      help={{
        about: `Environments on the inner side of the edge that is followed, separated by ;, as the layers have them. Left empty: ${SETTINGS.edge_inside.initial}. Write dune; beach; washover to follow a barrier`,
      }}
      fault={
        unmet === undefined || asSetting !== kept || kept === ''
          ? null
          : `No layer has “${unmet.found}”; expected ${unmet.expected}.`
      }
    >
      {(input) => (
        <input
          {...input}
          title="Environments on the inner side of the edge, separated by ;"
          value={typed}
          placeholder="those of the land"
          disabled={store.readOnly}
          autoComplete="off"
          onChange={(event) => setTyped(event.target.value)}
          onBlur={commit}
          onKeyDown={typedKeys(typed !== kept, commit, () => setTyped(kept))}
        />
      )}
    </Field>
  );
}
