/** Other curves and predictions beside the curve: what lies between, over the intervals of the report and at some ages. */
import {
  nameInTrace,
  type OtherCurveResult,
  othersBeside,
  type Results,
  traceId,
} from '@stillstand/campaign/results';
import {
  besideDoubts,
  besideLarger,
  besideRates,
  besideTitle,
  differenceCells,
  everySoMany,
} from '@stillstand/output/words';
import type { CurveResult, Difference } from '@stillstand/science/curve';
import { useId, useState } from 'react';
import { Button, counted, printed, Traced } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { Unsettled } from '../unsettled.tsx';
import { AddCurve } from './add-curve.tsx';
import './other-curves.css';

/** As many ages as are shown at once. */
const AGES_SHOWN = 6;

export function OtherCurves({
  results,
  curve,
  isFinal,
}: {
  results: Results;
  curve: CurveResult;
  isFinal: boolean;
}) {
  const store = useStore();
  const id = useId();
  const [isAdding, setAdding] = useState(false);
  const rows = store.rows('other_curves');
  const names = [...new Set(rows.map((row) => row.cells['curve']?.trim() ?? ''))];
  const found = new Map(othersBeside(results).map((other) => [other.name, other]));
  const remove = (name: string): void => {
    store.together(() => {
      for (const row of rows)
        if ((row.cells['curve']?.trim() ?? '') === name) store.removeRow('other_curves', row.row_id);
    });
  };
  if (nameInTrace(results) !== null)
    return names.length === 0 ? null : (
      <p className="quiet">
        {counted(names.length, 'other curve')}: compared with the curve of the report alone.
      </p>
    );
  return (
    <section className="other-curves" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>
        Other curves {names.length === 0 ? null : <Unsettled curve={curve} isFinal={isFinal} />}
      </h2>
      {names.map((name) => {
        const other = found.get(name);
        return (
          <div key={name} className={isFinal ? 'other' : 'other stale'}>
            {other === undefined ? (
              <p className="quiet">
                {isFinal
                  ? `${name === '' ? 'A curve without a name' : name} is not used; the problems say why.`
                  : `${name} is compared when the curve is computed.`}
              </p>
            ) : (
              <Beside other={other} />
            )}
            {store.readOnly ? null : (
              <Button kind="bare" onClick={() => remove(name)}>
                Delete {name === '' ? 'it' : name}
              </Button>
            )}
          </div>
        );
      })}
      {store.readOnly ? null : (
        <Button onClick={() => setAdding(true)}>Add another curve or a prediction</Button>
      )}
      {isAdding ? <AddCurve onClose={() => setAdding(false)} /> : null}
    </section>
  );
}

function Beside({ other }: { other: OtherCurveResult }) {
  const larger = besideLarger(other);
  const id = traceId.beside(other.name);
  const ages = everySoMany(other.at, AGES_SHOWN).shown;
  return (
    <>
      <h3>{besideTitle(other)}</h3>
      <table>
        <Head what="rate, mm/yr" larger={larger.rate} />
        <tbody>
          {besideRates(other).map(({ rate_mm_yr, ...each }, k) => {
            const trace = k < other.intervals.length ? id.interval(each) : id.meanRate;
            return (
              <Line
                key={trace}
                trace={trace}
                when={`${printed(each.older_cal_bp, 0)} to ${printed(each.younger_cal_bp, 0)}`}
                difference={rate_mm_yr}
              />
            );
          })}
        </tbody>
        {ages.every(({ level_m }) => level_m === null) ? null : (
          <>
            <Head what="level, m" larger={larger.level} />
            <tbody>
              {ages.map(({ age_cal_bp, level_m }) => (
                <Line
                  key={age_cal_bp}
                  trace={id.level(age_cal_bp)}
                  when={printed(age_cal_bp, 0)}
                  difference={level_m!}
                />
              ))}
            </tbody>
          </>
        )}
      </table>
      <p className="quiet">{besideDoubts(other).join(' ')}</p>
    </>
  );
}

function Head({ what, larger }: { what: string; larger: string }) {
  return (
    <thead>
      <tr>
        <th scope="col">cal BP</th>
        {[what, '95 %', larger].map((heading) => (
          <th key={heading} scope="col" className="n">
            {heading}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function Line({
  trace,
  when,
  difference,
}: {
  trace: Parameters<typeof Traced>[0]['id'];
  when: string;
  difference: Difference;
}) {
  const { median, range, p } = differenceCells(difference);
  return (
    <tr>
      <th scope="row">{when}</th>
      <td className="n">
        <Traced id={trace}>{median}</Traced>
      </td>
      <td className="n">{range}</td>
      <td className="n">{p}</td>
    </tr>
  );
}
