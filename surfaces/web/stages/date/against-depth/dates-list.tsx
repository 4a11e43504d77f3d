/** The dates of a hole among each other; the chosen one with what can be done to it. */
import { traceId } from '@stillstand/campaign/results';
import { isProbableOutlier } from '@stillstand/science/dating';
import { Mark, printed, signed, Traced } from '../../../parts/index.ts';
import { DateActs } from './date-acts.tsx';
import type { HoleDate } from './hole-dates.ts';

interface Props {
  hole: string;
  dates: readonly HoleDate[];
  hasHistory: boolean;
  isFormer: boolean;
  chosen: string | null;
  onChoose: (row_id: string | null) => void;
}

export function DatesList({ hole, dates, hasHistory, isFormer, chosen, onChoose }: Props) {
  return (
    <table className={isFormer ? 'ruled ages-list stale' : 'ruled ages-list'}>
      <caption>
        Dates of {hole}
        <span className="quiet">
          {hasHistory ? ' age of the layer from all dates together' : ' each date alone'}
        </span>
      </caption>
      <thead>
        <tr>
          <th scope="col">date</th>
          <th scope="col" className="number">
            depth, m
          </th>
          <th scope="col" className="number">
            age, cal BP
          </th>
          {hasHistory ? (
            <>
              <th scope="col" className="number moved">
                moved, yr
              </th>
              <th scope="col" className="number">
                outlier
              </th>
            </>
          ) : null}
        </tr>
      </thead>
      <tbody>
        {dates.map((each) => (
          <Row
            key={each.row.row_id}
            of={each}
            hole={hole}
            hasHistory={hasHistory}
            isChosen={each.row.row_id === chosen}
            onChoose={onChoose}
          />
        ))}
      </tbody>
    </table>
  );
}

function Row({
  of,
  hole,
  hasHistory,
  isChosen,
  onChoose,
}: { of: HoleDate; isChosen: boolean } & Pick<Props, 'hole' | 'hasHistory' | 'onChoose'>) {
  const { row, depth_m, state, clock } = of;
  const code = row.cells['lab_code']?.trim() || 'without a code';
  const isRejected = row.cells['status']?.trim() === 'rejected';
  const acts = `acts-${row.row_id}`;
  return (
    <>
      <tr id={`age-${row.row_id}`} className={isRejected ? 'rejected' : undefined}>
        <th scope="row">
          <button
            type="button"
            aria-expanded={isChosen}
            aria-controls={isChosen ? acts : undefined}
            onClick={() => onChoose(isChosen ? null : row.row_id)}
          >
            <span className="code">{code}</span>
            <small>{placeWords(of)}</small>
          </button>
        </th>
        <td className="number">{depth_m === null ? '–' : printed(depth_m, 2)}</td>
        <td className="number">
          <Age of={of} hole={hole} />
        </td>
        {hasHistory ? (
          <>
            <td className="number moved">
              {clock === null ? '–' : signed(clock.age_cal_bp.mean - clock.alone_cal_bp.mean, 0)}
            </td>
            <td className="number">
              {clock === null ? (
                '–'
              ) : (
                <>
                  {state === 'in doubt' && isProbableOutlier(clock) ? (
                    <Mark name="close" size={16} label="in doubt" />
                  ) : null}{' '}
                  {clock.outlier_probability < 0.005 ? '<0.01' : printed(clock.outlier_probability, 2)}
                </>
              )}
            </td>
          </>
        ) : null}
      </tr>
      {isChosen ? (
        <tr className="acts-row">
          <td colSpan={hasHistory ? 5 : 3} id={acts}>
            <DateActs of={of} />
          </td>
        </tr>
      ) : null}
    </>
  );
}

/** Its sample, or why it is not drawn. */
function placeWords({ row, date, depth_m, state }: HoleDate): string {
  const sample = row.cells['sample']?.trim() ?? '';
  if (date === null) return `${sample}, not used: press to see why`;
  if (depth_m === null) return `${sample}, without a depth: not drawn`;
  if (state === 'rejected') return `${sample}, rejected`;
  if (state === 'aside') return `${sample}, maximum or minimum`;
  return sample;
}

function Age({ of: { date, clock }, hole }: { of: HoleDate; hole: string }) {
  if (clock !== null) {
    const { median, lower95, upper95 } = clock.age_cal_bp;
    return (
      <>
        <Traced id={traceId.hole(hole).ageDepth}>{printed(median, 0)}</Traced>
        <small>
          {printed(upper95, 0)}–{printed(lower95, 0)}
        </small>
      </>
    );
  }
  if (date === null) return <>–</>;
  return (
    <>
      <Traced id={traceId.date(date.lab_code)}>{printed(date.median_cal_bp, 0)}</Traced>
      <small>alone</small>
    </>
  );
}
