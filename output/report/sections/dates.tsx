/** Dating results and their calendar ages. */
import { type AgeInterval, type DateResult, type Results, traceId } from '@stillstand/campaign/results';
import { curveCalled, isLimit, printed, signed, statedAge, years } from '@stillstand/output/words';
import { Caution } from '../marks.tsx';
import { each, words } from '../quantity.tsx';
import { From } from '../where/from.tsx';
import { DoseRates } from './dose-rates.tsx';

/** Share of a distribution beyond the end of the curve that is worth a word. */
const NOTICEABLE = 0.001;
export const isCut = (date: DateResult): boolean => date.truncated >= NOTICEABLE;

export function Dates({ results }: { results: Results }) {
  if (results.dates.length === 0) return <p>No dating result is recorded.</p>;
  const hasF14C = results.dates.some((date) => date.f14c !== null);
  return (
    <>
      <p className="q">
        Laboratory ages and reservoir offsets with 1 sd, as they came. Calendar ages as 95.4 % highest-density
        sets, each interval with its probability in per cent.
      </p>
      <table className="grouped">
        <thead>
          <tr>
            <th>laboratory code</th>
            <th>sample</th>
            <th>material</th>
            <th className="n">
              age, <sup>14</sup>C yr BP{hasF14C ? ', or F14C' : ''}
            </th>
            <th className="pm">1 sd</th>
            <th>curve, offset</th>
            <th className="n">median, cal BP</th>
            <th>95.4 % set, cal BP</th>
          </tr>
        </thead>
        {each(results.dates, (date) => (
          <tbody className={date.status}>
            <tr>
              <td className="id">{date.lab_code}</td>
              <td className="nb">{sampleOf(date)}</td>
              <td>{date.material ?? ''}</td>
              <Measured date={date} />
              <td>{curveOf(date)}</td>
              <td className="n">
                <From id={traceId.date(date.lab_code)}>{years(date.median_cal_bp)}</From>
                {date.median_cal_bp < 0 ? <span className="u"> {commonEra(date.median_cal_bp)}</span> : null}
              </td>
              <td>{each(date.sets_95, (part, i) => setPart(part, i))}</td>
            </tr>
            <Remarks date={date} />
          </tbody>
        ))}
      </table>
      <DoseRates results={results} />
    </>
  );
}

/** What the laboratory gave: F14C where there is one, its age among the remarks. */
const Measured = ({ date }: { date: DateResult }) =>
  date.f14c === null ? (
    <>
      <td className="n">{statedAge(date)[0]}</td>
      <td className="pm">
        {isLimit(date) ? 'limit' : date.error_shape === 'uniform' ? 'range' : `±${printed(date.error, 0)}`}
      </td>
    </>
  ) : (
    <>
      <td className="n">F14C {printed(date.f14c, 4)}</td>
      <td className="pm">±{printed(date.f14c_sigma, 4)}</td>
    </>
  );

const commonEra = (cal_bp: number): string => `${1950 - Math.round(cal_bp)} CE`;

const sampleOf = (date: DateResult) =>
  date.hole === null || date.sample.startsWith(date.hole) ? date.sample : `${date.sample}, ${date.hole}`;

function curveOf(date: DateResult) {
  if (date.method !== 'radiocarbon') return calendarTerms(date);
  if (date.delta_r === 0 && date.delta_r_error === 0) return curveCalled(date.curve ?? '');
  return (
    <>
      {curveCalled(date.curve ?? '')},{' '}
      <span className="nb">
        {signed(date.delta_r, 0)} ±{printed(date.delta_r_error, 0)}
      </span>
    </>
  );
}

/** "luminescence, calendar yr before 2023, ±70 of it shared: quartz 2023". */
function calendarTerms({ method, counts_from_ce, shared_sigma_yr, shared_group }: DateResult) {
  const shared =
    shared_sigma_yr === null ? '' : `, ±${printed(shared_sigma_yr, 0)} of it shared: ${shared_group}`;
  return `${words(method)}, calendar yr before ${counts_from_ce}${shared}`;
}

const setPart = (part: AgeInterval, index: number) => (
  <>
    {index === 0 ? '' : ', '}
    <span className="nb">
      {years(part.older_cal_bp)} to {years(part.younger_cal_bp)}{' '}
      <span className="u">({printed(100 * part.probability, part.probability < 0.1 ? 1 : 0)})</span>
    </span>
  </>
);

/** Where an age that no laboratory stated is from. */
const FROM: Readonly<Record<DateResult['age_from'], string>> = {
  stated: '',
  measurements: 'Computed from the measurements of its sample. ',
  density: 'Median and 1 sd of an age density. ',
};

function Remarks({ date }: { date: DateResult }) {
  const cut = isCut(date);
  if (date.status === 'accepted' && !cut && date.f14c === null && date.age_from === 'stated') return null;
  return (
    <tr className="more">
      <td />
      <td colSpan={7}>
        {date.f14c === null
          ? ''
          : `Conventional age ${printed(date.value, 0)} ±${printed(date.error, 0)} BP. `}
        {FROM[date.age_from]}
        {date.status === 'rejected' ? `Rejected: ${date.reason ?? 'no reason given'}. ` : ''}
        {cut ? (
          <span style={{ color: 'var(--caution)' }}>
            <Caution /> {printed(100 * date.truncated, 1)} % of the distribution lies beyond the end of the
            curve and is cut off.
          </span>
        ) : null}
      </td>
    </tr>
  );
}
