/** What is drawn of a line through time: the ages of its sections, and what counts as the inner side of the edge. */
import type { Results } from '@stillstand/campaign/results';
import { SETTINGS, type SettingName } from '@stillstand/campaign/settings';
import { listed } from '@stillstand/campaign/tables';
import { type ComponentProps, useState } from 'react';
import { Field, typedKeys } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { type TypedAges, typedAges } from './ages-typed.ts';

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
  return (
    <TypedSetting
      setting="section_ages"
      kept={kept}
      name="Ages of the sections"
      unit="cal BP"
      help={{
        about:
          'Ages at which the section is drawn as it was, separated by ;. Left empty, round ages are chosen that two holes reach',
        taken: 'one to six ages, −100 to 50,000 cal BP',
      }}
      title="Ages at which the section is drawn as it was, such as 8000; 6000; 4000"
      placeholder="chosen"
      read={typedAges}
    />
  );
}

function Inside({ kept, results }: { kept: string; results: Results }) {
  const unmet = results.problems.find(({ code }) => code === 'edge-not-met');
  return (
    <TypedSetting
      setting="edge_inside"
      kept={kept}
      name="Inside of the edge"
      help={{
        about: `Environments on the inner side of the edge that is followed, separated by ;, as the layers have them. Left empty: ${SETTINGS.edge_inside.initial}. Write dune; beach; washover to follow a barrier`,
      }}
      title="Environments on the inner side of the edge, separated by ;"
      placeholder="those of the land"
      read={(typed) => ({ ok: true, value: listed(typed).join('; ') })}
      faultKept={
        unmet === undefined || kept === ''
          ? null
          : `No layer has “${unmet.found}”; expected ${unmet.expected}.`
      }
    />
  );
}

/** A setting that is typed: written when it is left or entered, unless it cannot be read. */
function TypedSetting({
  setting,
  kept,
  name,
  unit,
  help,
  title,
  placeholder,
  read,
  faultKept = null,
}: Pick<ComponentProps<typeof Field>, 'name' | 'unit' | 'help'> & {
  setting: SettingName;
  kept: string;
  title: string;
  placeholder: string;
  read: (typed: string) => TypedAges;
  /** What is wrong with what is kept. */
  faultKept?: string | null;
}) {
  const store = useStore();
  const [typed, setTyped] = useState(kept);
  const found = read(typed);
  const commit = (): void => {
    if (found.ok && found.value !== kept) store.setSetting(setting, found.value);
  };
  return (
    <Field
      name={name}
      {...(unit === undefined ? {} : { unit })}
      help={help}
      fault={found.ok ? (found.value === kept ? faultKept : null) : found.fault}
    >
      {(input) => (
        <input
          {...input}
          title={title}
          value={typed}
          placeholder={placeholder}
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
