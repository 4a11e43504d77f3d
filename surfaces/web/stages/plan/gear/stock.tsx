/** The stock of pipe: every item with its length, its thread loss and where it is now; a series is added in one act. */
import { inventoryOf, type PipeItem, whereWords } from '@stillstand/campaign/holes';
import { useState } from 'react';
import { asTyped } from '../../../holes/index.ts';
import { Button, Mark, printed, Table } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import { timeWithOffset, useStore } from '../../../store/index.ts';
import { AddRow } from '../add-row.tsx';
import { SeriesEntry } from './series-entry.tsx';
import './stock.css';

export function PipeStock() {
  const store = useStore();
  const [adding, setAdding] = useState<'item' | 'series' | null>(null);
  const items = inventoryOf(asTyped(store));
  return (
    <section className="rows stock">
      {items.length === 0 ? (
        <>
          <h2>Pipe stock</h2>
          <p className="quiet small">
            Labels and measured lengths entered here are offered in Drill, in this order.
          </p>
        </>
      ) : (
        <Table
          caption="Pipe stock"
          columns={[
            { name: 'label' },
            { name: 'what' },
            { name: 'length', unit: 'm', number: true },
            { name: 'thread loss', unit: 'cm', number: true },
            { name: 'where now' },
          ]}
        >
          {items.map((item) => (
            <ItemRow key={`${item.item} ${item.label}`} item={item} />
          ))}
        </Table>
      )}
      {store.readOnly ? null : (
        <div className="acts">
          <Button mark="plus" onClick={() => setAdding('series')}>
            Add series of joints
          </Button>
          <Button mark="plus" onClick={() => setAdding('item')}>
            Add item
          </Button>
        </div>
      )}
      {adding === 'item' ? (
        <AddRow
          table="pipe_stock"
          title="Add item"
          prefill={{ item: 'joint' }}
          onClose={() => setAdding(null)}
        />
      ) : null}
      {adding === 'series' ? <SeriesEntry onClose={() => setAdding(null)} /> : null}
    </section>
  );
}

function ItemRow({ item }: { item: PipeItem }) {
  const store = useStore();
  const openRow = useOpenRow();
  const { stock_row_id, row_id } = item;
  const table = stock_row_id === null ? 'string_items' : 'pipe_stock';
  const isDoubtful = item.whereabouts === 'missing' || item.whereabouts === 'lost';
  const mayBeSound = item.whereabouts === 'damaged' || (item.whereabouts === 'lost' && item.hole === null);
  const markSound = (): void => {
    const cells = { condition: 'sound', condition_at: timeWithOffset(new Date()) };
    if (stock_row_id === null)
      store.addRow('pipe_stock', { stock_item: item.label, item: item.item, ...cells });
    else store.editRow('pipe_stock', stock_row_id, cells);
  };
  return (
    <tr>
      <th scope="row">
        <button
          type="button"
          className="row-name"
          onClick={() => openRow({ table, row_id: stock_row_id ?? row_id! })}
        >
          {item.label}
        </button>
      </th>
      <td>{item.item.replace('_', ' ')}</td>
      <td className="number">{item.length_m === null ? '' : printed(item.length_m, 2)}</td>
      <td className="number">{item.makeup_loss_m === null ? '' : printed(item.makeup_loss_m * 100, 1)}</td>
      <td>
        <span className="where-now" data-away={!item.isAtHand}>
          {isDoubtful ? <Mark name="close" size={16} /> : null}
          {whereWords(item)}
          {mayBeSound && !store.readOnly ? (
            <Button kind="bare" aria-label={`Mark ${item.label} sound`} onClick={markSound}>
              Mark sound
            </Button>
          ) : null}
        </span>
      </td>
    </tr>
  );
}
