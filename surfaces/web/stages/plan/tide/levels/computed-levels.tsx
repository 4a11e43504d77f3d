/** From which gauge, and how, the levels of a site are computed: asked for once, computed from then on. */
import { useState } from 'react';
import { useComputation } from '../../../../compute/index.ts';
import { Button, ColumnField, Field } from '../../../../parts/index.ts';
import { type DocRow, useStore } from '../../../../store/index.ts';

export function ComputedLevels({ site }: { site: string }) {
  const store = useStore();
  const { results } = useComputation();
  const reductions = store
    .rows('tide_reductions')
    .filter(({ cells }) => (cells['site']?.trim() ?? '') === site);
  const [isAdding, setAdding] = useState(false);
  return (
    <div className="computed-levels">
      {reductions.map((row) => (
        <div key={row.row_id} className="acts">
          <p className="says-why">
            {wordsOf(row)}
            {(results?.problems ?? [])
              .filter(({ table, row_id }) => table === 'tide_reductions' && row_id === row.row_id)
              .map(({ code, found, expected, fix }) => (
                <span key={code} role="status">
                  {' '}
                  Found {found}; expected {expected}. {fix}
                </span>
              ))}
          </p>
          {store.readOnly ? null : (
            <Button onClick={() => store.removeRow('tide_reductions', row.row_id)}>Stop computing</Button>
          )}
        </div>
      ))}
      {store.readOnly ? null : isAdding || reductions.length === 0 ? (
        <NewReduction key={reductions.length} site={site} onDone={() => setAdding(false)} />
      ) : (
        <Button mark="plus" onClick={() => setAdding(true)}>
          Compute from another gauge
        </Button>
      )}
    </div>
  );
}

function wordsOf({ cells }: DocRow): string {
  const { gauge = '', from = '', to = '' } = cells;
  if (cells['method']?.trim() === 'means') {
    const days = [from === '' ? '' : ` from ${from}`, to === '' ? '' : ` to ${to}`].join('');
    return `Computed: means of the readings of ${gauge}${days}. Entered levels take precedence.`;
  }
  const years = from === '' ? '19 years' : `19 years from ${from.slice(0, 4)}`;
  return `Computed from the constants of ${gauge}, ${years}. Entered levels take precedence.`;
}

function NewReduction({ site, onDone }: { site: string; onDone: () => void }) {
  const store = useStore();
  const of = (table: 'constituents' | 'gauge_readings'): Set<string> =>
    new Set(
      store
        .rows(table)
        .filter(({ cells }) => table === 'constituents' || (cells['flag'] ?? '').trim() === '')
        .map(({ cells }) => cells['gauge']?.trim() ?? ''),
    );
  const [withConstants, withReadings] = [of('constituents'), of('gauge_readings')];
  const gauges = store
    .rows('gauges')
    .filter(({ cells }) => ['', site].includes(cells['site']?.trim() ?? ''))
    .flatMap(({ cells }) => cells['gauge']?.trim() || [])
    .filter((gauge) => withConstants.has(gauge) || withReadings.has(gauge));
  const [named, setNamed] = useState('');
  const gauge = gauges.includes(named) ? named : (gauges[0] ?? '');
  const [wanted, setWanted] = useState<'constants' | 'means' | null>(null);
  const method = wanted ?? (withConstants.has(gauge) ? 'constants' : 'means');
  const [days, setDays] = useState({ from: '', to: '' });
  if (gauges.length === 0)
    return (
      <p className="quiet small">
        With constants or readings of a gauge the levels are computed: paste or find them below.
      </p>
    );
  const use = (): void => {
    store.addRow('tide_reductions', { site, gauge, method, ...(method === 'means' ? days : {}) });
    onDone();
  };
  return (
    <form
      className="fields"
      onSubmit={(event) => {
        event.preventDefault();
        use();
      }}
    >
      <Field name="Gauge" help={{ about: 'The gauge whose constants or readings give the levels' }}>
        {(input) => (
          <select {...input} value={gauge} onChange={(event) => setNamed(event.target.value)}>
            {gauges.map((label) => (
              <option key={label} value={label}>
                {label}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field
        name="Computed from"
        help={{
          about:
            'Constants give all levels, over 19 years. Readings of a month or more give means of their own time: MHHW to MLLW, without HAT and LAT',
        }}
      >
        {(input) => (
          <select
            {...input}
            value={method}
            onChange={(event) => setWanted(event.target.value === 'means' ? 'means' : 'constants')}
          >
            <option value="constants">constants</option>
            <option value="means">readings, as means</option>
          </select>
        )}
      </Field>
      {method === 'means'
        ? (['from', 'to'] as const).map((column) => (
            <ColumnField
              key={column}
              table="tide_reductions"
              column={column}
              value={days[column]}
              onCommit={(text) => setDays((before) => ({ ...before, [column]: text.trim() }))}
            />
          ))
        : null}
      <Button type="submit">Use computed levels</Button>
    </form>
  );
}
