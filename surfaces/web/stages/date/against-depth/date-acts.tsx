/** What a chosen date says alone and among the others, and what can be done to it. */
import { problemWords } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { isProbableOutlier } from '@stillstand/science/dating';
import { useContext, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, Mark, printed, signed, TraceContext } from '../../../parts/index.ts';
import { useNavigate } from '../../../shell/index.ts';
import { useStore } from '../../../store/index.ts';
import { Rejection } from '../rejection.tsx';
import { setWords } from '../set-words.ts';
import type { HoleDate } from './hole-dates.ts';
import { MoveSample } from './move-sample.tsx';

/** Of a date and its sample; the sheet of problems has all. */
const MOST_PROBLEMS = 3;

export function DateActs({ of: { row, date, clock } }: { of: HoleDate }) {
  const store = useStore();
  const navigate = useNavigate();
  const trace = useContext(TraceContext);
  const { problems } = useComputation();
  const [isMoving, setMoving] = useState(false);
  const label = row.cells['sample']?.trim() ?? '';
  const sample = store.rows('samples').find(({ cells }) => cells['sample']?.trim() === label) ?? null;
  const others = store
    .rows('determinations')
    .filter(({ row_id, cells }) => row_id !== row.row_id && cells['sample']?.trim() === label).length;
  return (
    <div className="date-acts">
      {problems
        .filter(({ row_id }) => row_id === row.row_id || (sample !== null && row_id === sample.row_id))
        .slice(0, MOST_PROBLEMS)
        .map((problem) => {
          const { place, found, expected, fix } = problemWords(problem, store.rows);
          return (
            <p key={`${problem.code} ${place}`} className="caution-line">
              <Mark name="close" size={18} />
              <span>
                {place}: found {found || 'nothing'}; expected {expected}. {fix}
              </span>
            </p>
          );
        })}
      {date === null ? null : (
        <p>
          Alone {printed(date.median_cal_bp, 0)} cal BP, 95 %{' '}
          {date.sets_95.map((set) => setWords(set, date.sets_95.length > 1)).join(', ')}.
          {clock === null
            ? ''
            : ` All dates together put its layer ${signed(clock.age_shift_sd, 1)} sd from it.`}
        </p>
      )}
      {clock !== null && isProbableOutlier(clock) ? (
        <p className="caution-line">
          <Mark name="close" size={18} /> More likely an outlier than not. Look at the sample before you
          reject its date; it already counts for little.
        </p>
      ) : null}
      <Rejection
        row={row}
        isReadOnly={store.readOnly}
        onCommit={(cells) => store.editRow('determinations', row.row_id, cells)}
      />
      <p className="acts">
        {sample === null ? null : (
          <Button mark="sample" disabled={store.readOnly} onClick={() => setMoving(true)}>
            Move sample
          </Button>
        )}
        {date === null || trace === null ? null : (
          <Button
            mark="history"
            title="Where does this come from?"
            onClick={() => trace(traceId.date(date.lab_code))}
          >
            Trace date
          </Button>
        )}
        <Button mark="on" onClick={() => navigate('Date', { row: row.row_id })}>
          Open date
        </Button>
      </p>
      {isMoving && sample !== null ? (
        <MoveSample sample={sample} others={others} onClose={() => setMoving(false)} />
      ) : null}
    </div>
  );
}
