/** Other curves and predictions beside the curve: what lies between, over the intervals of the report and at some ages. */
import { type OtherCurveResult, othersBeside, type Results, traceId } from '@stillstand/campaign/results';
import { besideDoubts, besideLarger, besideTitle, differenceCells } from '@stillstand/output/words';
import type { CurveResult, Difference } from '@stillstand/science/curve';
import { useId, useState } from 'react';
import { Button, printed, Traced } from '../../../parts/index.ts';
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
  const every = Math.max(1, Math.ceil((other.at.length - 1) / (AGES_SHOWN - 1)));
  const ages = other.at.filter((_, i) => (other.at.length - 1 - i) % every === 0);
  const [oldest, youngest] = [other.at[0], other.at.at(-1)];
  return (
    <>
      <h3>{besideTitle(other)}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">cal BP</th>
            <th scope="col" className="n">
              rate, mm/yr
            </th>
            <th scope="col" className="n">
              95 %
            </th>
            <th scope="col" className="n">
              {larger.rate}
            </th>
          </tr>
        </thead>
        <tbody>
          {other.intervals.map((each) => (
            <Line
              key={each.older_cal_bp}
              trace={id.interval(each)}
              when={`${printed(each.older_cal_bp, 0)} to ${printed(each.younger_cal_bp, 0)}`}
              difference={each.rate_mm_yr}
            />
          ))}
          {other.mean_rate_mm_yr === null || oldest === undefined || youngest === undefined ? null : (
            <Line
              trace={id.meanRate}
              when={`${printed(oldest.age_cal_bp, 0)} to ${printed(youngest.age_cal_bp, 0)}`}
              difference={other.mean_rate_mm_yr}
            />
          )}
        </tbody>
        {ages.every(({ level_m }) => level_m === null) ? null : (
          <>
            <thead>
              <tr>
                <th scope="col">cal BP</th>
                <th scope="col" className="n">
                  level, m
                </th>
                <th scope="col" className="n">
                  95 %
                </th>
                <th scope="col" className="n">
                  {larger.level}
                </th>
              </tr>
            </thead>
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
