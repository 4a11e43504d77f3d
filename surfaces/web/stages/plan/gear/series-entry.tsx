/** A series of joints for the stock: from a label to a label with one length, or measured lengths pasted. */
import { itemKey } from '@stillstand/campaign/holes';
import { bareUnit, schemas } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Field, FormDialog, type Help } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { type SeriesAsked, seriesOf } from './series.ts';

export function SeriesEntry({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const pipes = store.rows('pipes').map((row) => row.cells['pipe']?.trim() ?? '');
  const [asked, setAsked] = useState<SeriesAsked>({
    first: 'A1',
    last: '',
    length: '',
    lengths: '',
    item: 'joint',
    makeup_loss: '',
    pipe: pipes[0] ?? '',
  });
  const taken = new Set(
    store
      .rows('pipe_stock')
      .map(({ cells }) => itemKey(cells['item']?.trim() || 'joint', cells['stock_item'] ?? '')),
  );
  const unit = bareUnit(store.setting('length_unit'));
  const { rows, there, fault } = seriesOf(asked, taken, unit);
  const add = (): void => {
    if (rows.length === 0) return;
    store.together(() => {
      for (const row of rows) store.addRow('pipe_stock', row);
    });
    onClose();
  };
  const change = (key: keyof SeriesAsked, value: string): void =>
    setAsked((before) => ({ ...before, [key]: value }));
  const field = (name: string, key: keyof SeriesAsked, help: Help) => (
    <Field name={name} help={help}>
      {(input) => (
        <input
          {...input}
          autoComplete="off"
          value={asked[key]}
          onChange={(event) => change(key, event.target.value)}
        />
      )}
    </Field>
  );
  const choose = (name: string, key: keyof SeriesAsked, about: string, choices: readonly string[]) => (
    <Field name={name} help={{ about }}>
      {(input) => (
        <select {...input} value={asked[key]} onChange={(event) => change(key, event.target.value)}>
          {choices.map((choice) => (
            <option key={choice} value={choice}>
              {choice === '' ? 'not stated' : choice.replace('_', ' ')}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  return (
    <FormDialog
      title="Add series of joints"
      action={rows.length === 1 ? 'Add 1 item' : `Add ${rows.length} items`}
      isReady={rows.length > 0}
      says={
        <>
          {fault === null || fault === '' ? null : (
            <p className="says-why" role="status">
              {fault}
            </p>
          )}
          {there.length === 0 ? null : (
            <p className="says-why">{there.join(', ')}: in the stock already, left unchanged.</p>
          )}
        </>
      }
      onSubmit={add}
      onClose={onClose}
    >
      {field('First label', 'first', {
        about: 'Label painted on the first one; the series runs on from it, A1',
      })}
      {field('Last label', 'last', { about: 'Label of the last one, A12; empty for one item' })}
      {field('Length of each', 'length', {
        about: 'End to end, with its unit, where all were measured alike; 1.52 m',
        range: '1.5 to 3.1 m: 5 or 10 ft',
        source: 'Common practice, no source',
      })}
      <Field
        name="Measured lengths"
        help={{
          about:
            'Instead of the last label and one length: a length on each line, or a label and a length, A1 3.05 m',
        }}
      >
        {(input) => (
          <textarea
            {...input}
            value={asked.lengths}
            onChange={(event) => change('lengths', event.target.value)}
          />
        )}
      </Field>
      {choose(
        'What it is',
        'item',
        'Joint, shoe, coupling or drive head',
        schemas.pipe_stock.columns.item.choices,
      )}
      {field('Thread loss', 'makeup_loss', {
        about: 'Length lost in the thread of each, where it was measured; empty: that of the kind of pipe',
        range: '2 to 5 cm; measure one pair',
        source: 'Common practice, no source',
      })}
      {choose('Kind of pipe', 'pipe', 'Label of the table pipes', ['', ...pipes])}
    </FormDialog>
  );
}
