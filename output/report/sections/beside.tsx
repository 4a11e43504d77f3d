/** Other curves and predictions beside the curve: rates over intervals, then levels at some ages. */
import type { OtherCurveResult } from '@stillstand/campaign/results';
import { besideDoubts, besideLarger, besideTitle, differenceCells, years } from '@stillstand/output/words';
import type { CurveResult, Difference } from '@stillstand/science/curve';
import { ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';

/** As many ages as a page shows; all of them stand in differences.csv. */
const AGES_SHOWN = 8;

type Diagnostics = CurveResult['diagnostics'];

export function BesideCurve({ other, diagnostics }: { other: OtherCurveResult; diagnostics: Diagnostics }) {
  const larger = besideLarger(other);
  const span = [other.at[0], other.at.at(-1)];
  const rates = [
    ...other.intervals,
    ...(other.mean_rate_mm_yr === null
      ? []
      : [
          {
            older_cal_bp: span[0]!.age_cal_bp,
            younger_cal_bp: span[1]!.age_cal_bp,
            rate_mm_yr: other.mean_rate_mm_yr,
          },
        ]),
  ];
  const every = Math.max(1, Math.ceil((other.at.length - 1) / (AGES_SHOWN - 1)));
  const ages = other.at.filter((at, i) => at.level_m !== null && (other.at.length - 1 - i) % every === 0);
  return (
    <>
      <table style={{ maxWidth: '150mm' }}>
        <caption>
          {besideTitle(other)}
          {other.source === null ? '' : ` (${other.source})`}
        </caption>
        <thead>
          <tr>
            <th>cal BP</th>
            <th className="n">rate, mm/yr</th>
            <th className="n">95 %</th>
            <th className="n">{larger.rate}</th>
            <ConvergedHead {...diagnostics} />
          </tr>
        </thead>
        <tbody>
          {each(rates, ({ older_cal_bp, younger_cal_bp, rate_mm_yr }) => (
            <Line
              when={`${years(older_cal_bp)} to ${years(younger_cal_bp)}`}
              difference={rate_mm_yr}
              diagnostics={diagnostics}
            />
          ))}
        </tbody>
        {ages.length === 0 ? null : (
          <>
            <thead>
              <tr>
                <th>cal BP</th>
                <th className="n">level, m</th>
                <th className="n">95 %</th>
                <th className="n">{larger.level}</th>
                <ConvergedHead {...diagnostics} />
              </tr>
            </thead>
            <tbody>
              {each(ages, ({ age_cal_bp, level_m }) => (
                <Line when={years(age_cal_bp)} difference={level_m!} diagnostics={diagnostics} />
              ))}
            </tbody>
          </>
        )}
      </table>
      <p className="q">
        {besideDoubts(other).join(' ')}
        {every > 1 ? ' All ages are in differences.csv.' : ''}
      </p>
    </>
  );
}

function Line({
  when,
  difference,
  diagnostics,
}: {
  when: string;
  difference: Difference;
  diagnostics: Diagnostics;
}) {
  const cells = differenceCells(difference);
  return (
    <tr>
      <td className="nb">{when}</td>
      <td className="n">{cells.median}</td>
      <td className="n">{cells.range}</td>
      <td className="n">{cells.p}</td>
      <ConvergedCell {...diagnostics} />
    </tr>
  );
}
