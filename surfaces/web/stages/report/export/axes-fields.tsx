/** Axes of the sea-level curve: units, direction and limits. */
import { Field } from '../../../parts/index.ts';
import type { Choices, Faults } from './choices.ts';

const LIMIT_FIELDS = [
  [
    'oldest',
    'Oldest age',
    'cal BP',
    'Age where the axis begins, whatever its unit; blank for that of the results',
  ],
  ['youngest', 'Youngest age', 'cal BP', 'Age where the axis ends; blank for that of the results'],
  [
    'highest',
    'Highest level',
    'm',
    'Top of the axis of sea level, up positive; blank for that of the results',
  ],
  [
    'lowest',
    'Lowest level',
    'm',
    'Foot of the axis of sea level, up positive; blank for that of the results',
  ],
] as const;

export function AxesFields({
  choices,
  change,
  faults,
}: {
  choices: Choices;
  change: (changed: Partial<Choices>) => void;
  faults: Faults;
}) {
  return (
    <details className="axes">
      <summary>
        <h3>Axes of the curve</h3>
      </summary>
      <div className="fields">
        <Field
          name="Ages"
          help={{ about: 'Ages at the axis of the curve: before 1950, by calendar year, or in thousands' }}
        >
          {(input) => (
            <select
              {...input}
              value={choices.ages}
              onChange={({ target }) => change({ ages: target.value as Choices['ages'] })}
            >
              <option value="bp">cal BP</option>
              <option value="ce">BCE and CE</option>
              <option value="ka">ka cal BP</option>
            </select>
          )}
        </Field>
        <Field name="Rates" help={{ about: 'Unit of the rate; 1 mm/yr is 10 cm per century and 1 m/kyr' }}>
          {(input) => (
            <select
              {...input}
              value={choices.rates}
              onChange={({ target }) => change({ rates: target.value as Choices['rates'] })}
            >
              <option value="mm/yr">mm/yr</option>
              <option value="cm/century">cm per century</option>
              <option value="m/kyr">m/kyr</option>
            </select>
          )}
        </Field>
        <Field name="Older ages" help={{ about: 'Side of the figure where the older ages are' }}>
          {(input) => (
            <select
              {...input}
              value={choices.older}
              onChange={({ target }) => change({ older: target.value as Choices['older'] })}
            >
              <option value="left">At the left</option>
              <option value="right">At the right</option>
            </select>
          )}
        </Field>
        {LIMIT_FIELDS.map(([limit, name, unit, about]) => (
          <Field key={limit} name={name} unit={unit} help={{ about }} fault={faults[limit]}>
            {(input) => (
              <input
                {...input}
                inputMode="text"
                value={choices[limit]}
                onChange={({ target }) => change({ [limit]: target.value })}
              />
            )}
          </Field>
        ))}
      </div>
      {faults.axes === undefined ? null : (
        <p className="fault" role="status">
          {faults.axes}
        </p>
      )}
    </details>
  );
}
