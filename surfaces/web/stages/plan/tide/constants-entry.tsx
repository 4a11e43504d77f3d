/** Tidal constants pasted from an agency's list, a line each; kept as rows of the table `constituents`. */
import { constituentNamed } from '@stillstand/science/tide';
import { useState } from 'react';
import { Field, FormDialog } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { readConstants } from './constants.ts';

export function ConstantsEntry({ site, onClose }: { site: string; onClose: () => void }) {
  const store = useStore();
  const gauges = store.rows('gauges').map((row) => row.cells['gauge']?.trim() ?? '');
  const [gauge, setGauge] = useState(gauges[0] ?? 'Tide gauge');
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<'m' | 'ft'>('m');
  const [source, setSource] = useState('');
  const { constants, faults } = readConstants(text, unit);
  const taken = new Set(
    store
      .rows('constituents')
      .filter((row) => row.cells['gauge']?.trim() === gauge.trim())
      .map((row) => row.cells['constituent']?.trim().toUpperCase()),
  );
  const twice = constants.filter(({ constituent }) => taken.has(constituent.toUpperCase()));
  const unknown = constants.filter(
    ({ constituent }) => constituentNamed(constituent) === null && constituent.toUpperCase() !== 'Z0',
  );
  const fault =
    text.trim() === ''
      ? null
      : (faults[0] ??
        (twice.length === 0
          ? null
          : `${twice.map((c) => c.constituent).join(', ')} of ${gauge} are there already: change them in the table, or name another gauge.`));
  const canWrite = constants.length > 0 && fault === null && gauge.trim() !== '';
  const write = (): void => {
    if (!canWrite) return;
    store.together(() => {
      if (!gauges.includes(gauge.trim())) {
        store.addRow('gauges', { gauge: gauge.trim(), ...(site === '' ? {} : { site }) });
      }
      for (const { constituent, amplitude_m, phase_deg } of constants) {
        store.addRow('constituents', {
          gauge: gauge.trim(),
          constituent,
          amplitude_m: String(Math.round(amplitude_m * 10_000) / 10_000),
          phase_deg: String(phase_deg),
          ...(source.trim() === '' ? {} : { source: source.trim() }),
        });
      }
    });
    onClose();
  };
  return (
    <FormDialog
      title="Paste tidal constants"
      action="Write them down"
      isReady={canWrite}
      below={
        canWrite ? (
          <p className="quiet small" role="status">
            {constants.length} constants.
            {unknown.length === 0
              ? ''
              : ` Not predicted with: ${unknown.map((c) => c.constituent).join(', ')}.`}
          </p>
        ) : null
      }
      onSubmit={write}
      onClose={onClose}
    >
      <Field
        name="Constants"
        fault={fault}
        help={{
          about:
            'One a line: name, amplitude, phase. The phase is the lag on Greenwich (UTC), not the local one. Z0, the mean level above the gauge’s zero, may be among them',
          unit: 'amplitude in m or ft, phase in degrees',
          source: 'The agency that keeps the gauge publishes them',
        }}
      >
        {(input) => (
          <textarea
            {...input}
            className="tide-lines"
            rows={8}
            value={text}
            placeholder={'M2 1.371 109.2\nS2 0.208 146.2\nK1 0.143 205.6'}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      <Field name="Amplitudes are in" help={{ about: 'Unit of the list; kept in metres' }}>
        {(input) => (
          <select
            {...input}
            value={unit}
            onChange={(event) => setUnit(event.target.value === 'ft' ? 'ft' : 'm')}
          >
            <option value="m">metres</option>
            <option value="ft">feet</option>
          </select>
        )}
      </Field>
      <Field name="Gauge" help={{ about: 'The gauge they are of; one that is not there yet is begun' }}>
        {(input) => <input {...input} value={gauge} onChange={(event) => setGauge(event.target.value)} />}
      </Field>
      <Field name="Source" help={{ about: 'Who published them, and their epoch' }}>
        {(input) => <input {...input} value={source} onChange={(event) => setSource(event.target.value)} />}
      </Field>
    </FormDialog>
  );
}
