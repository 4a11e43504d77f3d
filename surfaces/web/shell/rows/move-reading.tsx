/** Where a reading is in its hole, loop, gauge or day, and moving it next to another: a forgotten one gets its place. */
import type { Reading } from '@stillstand/campaign/document';
import { type Placed, placeNextTo, readingsOf, seriesOf } from '@stillstand/campaign/order';
import { capital, rowName, type TableName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, Field } from '../../parts/index.ts';
import type { DocRow, Store } from '../../store/index.ts';

/** So many of the readings nearest to it are offered as neighbours. */
const OFFERED = 400;

export function MoveReading({
  store,
  table,
  reading,
  onLeave,
}: {
  store: Store;
  table: TableName;
  reading: Reading<DocRow>;
  onLeave: () => void;
}) {
  const { first, now } = reading;
  const series = seriesOf((now ?? first).cells);
  const readings = series === null ? [] : readingsOf(store, series);
  const at = readings.findIndex(({ first_id }) => first_id === first.row_id);
  const others = readings.filter((_, i) => i !== at);
  const from = Math.max(0, Math.min(at - OFFERED / 2, others.length - OFFERED));
  const offered = others.slice(from, from + OFFERED);
  const [chosen, choose] = useState(offered.at(Math.max(0, at - from - 1))?.row_id ?? '');
  const neighbour = offered.find(({ row_id }) => row_id === chosen) ?? offered[0];
  if (neighbour === undefined) {
    return (
      <p className="quiet">It is the only reading there: there is nothing to move it before or after.</p>
    );
  }
  const seqs = others.map(({ seq }) => seq);
  const key = (side: 'before' | 'after', words: string) => {
    const seq = placeNextTo(neighbour.seq, side, seqs);
    return (
      <Button
        disabled={seq === null}
        onClick={() => {
          if (seq !== null && store.move(table, first.row_id, seq) !== null) onLeave();
        }}
      >
        {words}
      </Button>
    );
  };
  return (
    <>
      <Field
        name="Neighbour"
        help={{
          about:
            'The reading next to which it was read. Only its place in the order changes; its time and its values stay.',
        }}
      >
        {(input) => (
          <select {...input} value={neighbour.row_id} onChange={({ target }) => choose(target.value)}>
            {offered.map((each) => (
              <option key={each.row_id} value={each.row_id}>
                {called(each)}
              </option>
            ))}
          </select>
        )}
      </Field>
      <p className="row-acts">
        {key('before', 'Move before neighbour')}
        {key('after', 'Move after neighbour')}
        <Button onClick={onLeave}>Cancel</Button>
      </p>
    </>
  );
}

/** "12: Drive at 10:42 of H1". */
const called = ({ table, seq, cells }: Placed): string => `${seq}: ${capital(rowName(table, cells))}`;

/** Where it was moved from, or the places between which nobody has decided. Nothing where it never was moved. */
export function PlaceWords({ place, first }: Pick<Reading<DocRow>, 'place' | 'first'>) {
  const seq = ({ cells }: DocRow): string => cells['seq']?.trim() ?? '';
  if (place.between.length > 0) {
    return (
      <p className="row-state" role="alert">
        Moved to different places: number {place.between.map(seq).join(' or ')}. Until it is moved once more
        it is used as number {seq(place.by)}.
      </p>
    );
  }
  return seq(place.by) === seq(first) ? null : (
    <p className="row-state">
      Number {seq(place.by)} in the order; first written as number {seq(first)}.
    </p>
  );
}
