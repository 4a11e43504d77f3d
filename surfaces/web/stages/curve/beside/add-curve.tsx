/** Another curve, or a prediction, typed or pasted into rows of the table other_curves. */
import { useState } from 'react';
import { Field, FormDialog, printed, signed } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { levelsTyped } from './levels-typed.ts';

export function AddCurve({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const [name, setName] = useState('');
  const [use, setUse] = useState<'compare' | 'subtract'>('compare');
  const [datum, setDatum] = useState('');
  const [source, setSource] = useState('');
  const [text, setText] = useState('');
  const { levels, faults, isFromRange } = levelsTyped(text);
  const isTaken = store.rows('other_curves').some((row) => row.cells['curve']?.trim() === name.trim());
  const datums = store.rows('datums').flatMap((row) => row.cells['datum']?.trim() || []);
  const isReady = name.trim() !== '' && !isTaken && levels.length > 0 && faults.length === 0;
  const add = (): void => {
    if (!isReady) return;
    store.together(() => {
      for (const level of levels)
        store.addRow('other_curves', {
          curve: name.trim(),
          use,
          ...level,
          ...(use === 'subtract' ? {} : { datum }),
          source: source.trim(),
        });
    });
    onClose();
  };
  return (
    <FormDialog
      title="Another curve or a prediction"
      action="Add it"
      isReady={isReady}
      below={
        levels.length === 0 ? null : (
          <p className="quiet small" role="status">
            {said(levels)}
            {isFromRange ? ' The 1 sigma is from its 95 % ranges.' : ''}
          </p>
        )
      }
      onSubmit={add}
      onClose={onClose}
    >
      <Field
        name="Name"
        help={{ about: 'How it is called in the report: a site, or author and year' }}
        fault={isTaken ? `There is a curve ${name.trim()}. Choose another name.` : null}
      >
        {(input) => <input {...input} value={name} onChange={(event) => setName(event.target.value)} />}
      </Field>
      <Field
        name="Use"
        help={{
          about:
            'Compare: this curve less the other, levels and rates. Subtract: a prediction of a part of relative sea level (isostasy, land motion, positive where it would put the sea higher); what remains is reported',
        }}
      >
        {(input) => (
          <select {...input} value={use} onChange={(event) => setUse(event.target.value as typeof use)}>
            <option value="compare">compare with it</option>
            <option value="subtract">subtract it, a prediction</option>
          </select>
        )}
      </Field>
      {use === 'subtract' ? null : (
        <Field
          name="Datum"
          help={{
            about:
              'Zero of its levels. Not known: rates are compared all the same, since a constant shift does not change them',
          }}
        >
          {(input) => (
            <select {...input} value={datum} onChange={(event) => setDatum(event.target.value)}>
              <option value="">not known</option>
              {datums.map((each) => (
                <option key={each}>{each}</option>
              ))}
            </select>
          )}
        </Field>
      )}
      <Field
        name="Levels"
        help={{
          about:
            'A line for each age: age, level, 1 sigma; pasted from a spreadsheet, a paper’s supplement or the curve.csv of another campaign, with or without headings',
          unit: 'cal BP, m, m',
        }}
        fault={faults[0] ?? null}
      >
        {(input) => (
          <textarea
            {...input}
            rows={7}
            value={text}
            placeholder={'6000  −4.5  0.3\n4000  −2.1  0.2\n2000  −0.9  0.2'}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      <Field name="Source" help={{ about: 'Publication, or who computed it; it is printed with the result' }}>
        {(input) => <input {...input} value={source} onChange={(event) => setSource(event.target.value)} />}
      </Field>
    </FormDialog>
  );
}

function said(levels: ReturnType<typeof levelsTyped>['levels']): string {
  const ages = levels.map((level) => Number(level.age_cal_bp));
  const heights = levels.map((level) => Number(level.level_m));
  const span = (of: number[], write: (x: number) => string): string =>
    `${write(Math.max(...of))} to ${write(Math.min(...of))}`;
  return `${printed(levels.length, 0)} levels: ${span(ages, (age) => printed(age, 0))} cal BP, ${span(heights, (m) => signed(m, 2))} m.`;
}
