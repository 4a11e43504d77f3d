/** Name, datum and unit of the campaign: the settings a crew makes before the first hole. */
import { ColumnField, Field } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { GridChoice } from './places/index.ts';
import './rows-table.css';

export function Choices() {
  const store = useStore();
  const datums = store.rows('datums').map((row) => row.cells['datum'] ?? '');
  return (
    <section className="rows choices">
      <h2>The campaign</h2>
      <div className="fields">
        <ColumnField
          table="settings"
          column="value"
          name="Name"
          help={{ about: 'Coast and year, as you would write it on the field book' }}
          value={store.name()}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('name', typed.trim())}
        />
        <ColumnField
          table="settings"
          column="value"
          name="Datum of all heights"
          help={{
            about:
              'One of the datums below; every height is referred to it. Empty: the first that is mean sea level',
          }}
          value={store.setting('datum') ?? ''}
          labels={datums}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('datum', typed.trim())}
        />
        <Field
          name="Lengths typed without a unit"
          help={{
            about:
              'Are taken to be in this unit. “Not taken” makes them a problem, which is safer with a mixed crew',
          }}
        >
          {(input) => (
            <select
              {...input}
              value={store.setting('length_unit') ?? ''}
              disabled={store.readOnly}
              onChange={(event) => store.setSetting('length_unit', event.target.value)}
            >
              <option value="">not taken</option>
              <option value="m">metres</option>
              <option value="cm">centimetres</option>
              <option value="ft">feet</option>
            </select>
          )}
        </Field>
        <GridChoice />
        <ColumnField
          table="settings"
          column="value"
          name="Clearance margin, m"
          help={{
            about: 'Least distance of the sampler’s tip from the shoe; 0.3 where nothing is written',
            unit: 'm',
            range: '0.2 to 0.5 m, never less than 2 sd of the clearance',
            source: 'Common practice, no source',
          }}
          value={store.setting('clearance_margin_m') ?? ''}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('clearance_margin_m', typed.trim())}
        />
      </div>
    </section>
  );
}
