/** What the gear list assumes, each changed in place and kept with the campaign. */
import { assumptionFault, GEAR_ASSUMPTIONS, type GearAssumption } from '@stillstand/campaign/settings';
import { capital, settingName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Field, printed, typedKeys, useUnsaved } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';

const NAMES = Object.keys(GEAR_ASSUMPTIONS) as GearAssumption[];

export function AssumedGear() {
  const store = useStore();
  const own = NAMES.filter((name) => (store.setting(name) ?? '') !== '').length;
  return (
    <details className="more">
      <summary>
        Assumptions of the list{own === 0 ? ': the usual ones' : `: ${own} of ${NAMES.length} your own`}
      </summary>
      <div className="fields">
        {NAMES.map((name) => (
          <Assumption key={name} name={name} />
        ))}
      </div>
    </details>
  );
}

function Assumption({ name }: { name: GearAssumption }) {
  const store = useStore();
  const [typed, setTyped] = useState<string | null>(null);
  const { about, unit, usual, min, max, initial } = GEAR_ASSUMPTIONS[name];
  const own = store.setting(name) ?? '';
  const shown = typed ?? own;
  useUnsaved(typed !== null && typed !== own);
  const commit = (): void => {
    if (typed !== null && typed.trim() !== own) store.setSetting(name, typed.trim());
    setTyped(null);
  };
  return (
    <Field
      name={capital(settingName(name))}
      unit={unit}
      help={{
        about: capital(about),
        unit,
        range: `${usual}; ${initial} where nothing is entered`,
        taken: `${printed(min, Number.isInteger(min) ? 0 : 1)} to ${printed(max, 0)}`,
        source: 'Common practice, no source',
      }}
      fault={assumptionFault(name, shown)}
    >
      {(input) => (
        <input
          {...input}
          inputMode="decimal"
          autoComplete="off"
          placeholder={initial}
          value={shown}
          disabled={store.readOnly}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={commit}
          onKeyDown={typedKeys(typed !== null, commit, () => setTyped(null))}
        />
      )}
    </Field>
  );
}
