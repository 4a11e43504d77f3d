/** Other curves and predictions beside the curve: rates over intervals, then levels at some ages. */
import { type OtherCurveResult, type TraceId, traceId } from '@stillstand/campaign/results';
import {
  besideDoubts,
  besideLarger,
  besideRates,
  besideTitle,
  differenceCells,
  everySoMany,
  years,
} from '@stillstand/output/words';
import type { CurveResult, Difference } from '@stillstand/science/curve';
import { ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';

/** As many ages as a page shows; all of them stand in differences.csv. */
const AGES_SHOWN = 8;

type Diagnostics = CurveResult['diagnostics'];

export function BesideCurve({ other, diagnostics }: { other: OtherCurveResult; diagnostics: Diagnostics }) {
  const larger = besideLarger(other);
  const { shown, every } = everySoMany(other.at, AGES_SHOWN);
  const ages = shown.filter(({ level_m }) => level_m !== null);
  return (
    <>
      <table style={{ maxWidth: '150mm' }}>
        <caption>
          {besideTitle(other)}
          {other.source === null ? '' : ` (${other.source})`}
        </caption>
        <Head what="rate, mm/yr" larger={larger.rate} diagnostics={diagnostics} />
        <tbody>
          {each(besideRates(other), ({ older_cal_bp, younger_cal_bp, rate_mm_yr }) => (
            <Line
              id={traceId.beside(other.name).interval({ older_cal_bp, younger_cal_bp })}
              when={`${years(older_cal_bp)} to ${years(younger_cal_bp)}`}
              difference={rate_mm_yr}
              diagnostics={diagnostics}
            />
          ))}
        </tbody>
        {ages.length === 0 ? null : (
          <>
            <Head what="level, m" larger={larger.level} diagnostics={diagnostics} />
            <tbody>
              {each(ages, ({ age_cal_bp, level_m }) => (
                <Line
                  id={traceId.beside(other.name).level(age_cal_bp)}
                  when={years(age_cal_bp)}
                  difference={level_m!}
                  diagnostics={diagnostics}
                />
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

function Head({ what, larger, diagnostics }: { what: string; larger: string; diagnostics: Diagnostics }) {
  return (
    <thead>
      <tr>
        <th>cal BP</th>
        <th className="n">{what}</th>
        <th className="n">95 %</th>
        <th className="n">{larger}</th>
        <ConvergedHead {...diagnostics} />
      </tr>
    </thead>
  );
}

function Line({
  id,
  when,
  difference,
  diagnostics,
}: {
  id: TraceId;
  when: string;
  difference: Difference;
  diagnostics: Diagnostics;
}) {
  const cells = differenceCells(difference);
  return (
    <tr>
      <td className="nb">{when}</td>
      <td className="n">
        <From id={id}>{cells.median}</From>
      </td>
      <td className="n">{cells.range}</td>
      <td className="n">{cells.p}</td>
      <ConvergedCell {...diagnostics} />
    </tr>
  );
}
