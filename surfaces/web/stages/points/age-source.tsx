/** Where the age of a point comes from, and what that needs of the dates. */
import { ColumnField } from '../../parts/index.ts';
import { type DocRow, type Store, useStore } from '../../store/index.ts';

type Cells = DocRow['cells'];

/** Sources that a point without one has. */
export const OWN_DATE = 'determination';
export const BETWEEN = 'between';

/** Choice of the source, with a line that says what it takes, or what it lacks. */
export function AgeSource({
  sample,
  value,
  disabled = false,
  onChoose,
}: {
  sample: string;
  value: string;
  disabled?: boolean;
  onChoose: (source: string) => unknown;
}) {
  const words = sourceInWords(useStore(), sample, value);
  return (
    <div>
      <ColumnField table="points" column="age_from" value={value} disabled={disabled} onCommit={onChoose} />
      {words === '' ? null : <p className="meaning-source">{words}</p>}
    </div>
  );
}

/** One or two sentences; none where a date of the sample speaks for itself. */
function sourceInWords(store: Store, sample: string, source: string): string {
  const row = store.rows('samples').find(({ cells }) => of(cells, 'sample') === sample);
  const hole = row === undefined ? '' : of(row.cells, 'hole');
  const inHole = hole === '' ? 'its hole' : `hole ${hole}`;
  const dates = store.rows('determinations').map(({ cells }) => cells);
  const own = dates.filter((cells) => of(cells, 'sample') === sample);
  switch (source) {
    case BETWEEN:
      return `Every year between the nearest dates above and below it in ${inHole} is as likely.`;
    case 'age_depth':
      return `The age of its depth, from all dates of ${inHole} together. It is computed with the curve, which takes longer.`;
    case 'pooled':
      return (
        named(own, 'pool_group', dates, 'Pooled') ??
        `No date of ${sample} is pooled: enter one name under Pooled as for its dates in Date. Until then a date of the sample is used.`
      );
    case 'event':
      return (
        named(own, 'event_group', dates, 'Event') ??
        `No date of ${sample} belongs to an event: enter one name under Of one event for its dates in Date.`
      );
    default:
      return own.length === 0 && sample !== ''
        ? `${sample} has no date: date it, or choose the dates above and below.`
        : '';
  }
}

/** "Event: flood of the fan, 3 dates."; null where no date of the sample names one. */
function named(own: readonly Cells[], column: string, all: readonly Cells[], word: string): string | null {
  const name = own.map((cells) => of(cells, column)).find((each) => each !== '');
  if (name === undefined) return null;
  const count = all.filter((cells) => of(cells, column) === name).length;
  return `${word}: ${name}, ${count} ${count === 1 ? 'date' : 'dates'}.`;
}

const of = (cells: Cells, column: string): string => cells[column]?.trim() ?? '';
