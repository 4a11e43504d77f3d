/** What one more dated sample would do to each rate. */
import type { Results } from '@stillstand/campaign/results';
import { columnDecimals, printed, signed, years } from '@stillstand/output/words';
import {
  type CandidateDates,
  type CurveResult,
  intervalRate,
  isWorthDating,
  type RateWith,
  rankCandidateDates,
} from '@stillstand/science/curve';
import { ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';

interface Choice {
  usual: CandidateDates['usual'];
  interval: string;
  what: string;
  now: number;
  with: RateWith;
}

export function WhatNext({ curve, undated }: { curve: CurveResult; undated: Results['undated'] }) {
  const choices = curve.intervals.flatMap((interval): Choice[] => {
    const rate = intervalRate(curve, interval.older_cal_bp, interval.younger_cal_bp);
    const next = rate === null ? null : rankCandidateDates(curve, rate, undated);
    if (next === null) return [];
    const name = `${years(interval.older_cal_bp)} to ${years(interval.younger_cal_bp)}`;
    return [
      { what: 'a new index point', with: next.best },
      ...next.layers.map((layer) => ({ what: `${layer.point}, not yet dated`, with: layer.with })),
    ]
      .filter((choice) => isWorthDating(choice.with))
      .sort((a, b) => a.with.left - b.with.left)
      .map((choice) => ({ ...choice, usual: next.usual, interval: name, now: 2 * interval.rate_mm_yr.sd }));
  });
  const [first] = choices;
  if (first === undefined) return null;
  const { usual } = first;
  const decimals = columnDecimals(choices.map((choice) => choice.now / 2));
  return (
    <>
      <table className="whole">
        <caption>What one more date would do</caption>
        <thead>
          <tr>
            <th>rate over, cal BP</th>
            <th>dating</th>
            <th className="n">about, cal BP</th>
            <th className="n">near, m</th>
            <th className="n">± now, mm/yr</th>
            <th className="n">± with it</th>
            <ConvergedHead {...curve.diagnostics} />
          </tr>
        </thead>
        <tbody>
          {each(choices, ({ interval, what, now, with: { left, age_cal_bp, level_m } }) => (
            <tr>
              <td className="nb">{interval}</td>
              <td>{what}</td>
              <td className="n">{years(age_cal_bp.mean)}</td>
              <td className="n">{signed(level_m.mean, 1)}</td>
              <td className="n">{printed(now, decimals)}</td>
              <td className="n">{printed(now * left, decimals)}</td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="q">
        Estimated from the draws for a point as good as half of those there are: height ±
        {printed(2 * usual.height_sigma_m, 2)} m and age ±{printed(2 * usual.age_sd_yr, 0)} yr at 2 sd, its
        shared errors those of the others. What a date really does depends on what it turns out to be.
      </p>
    </>
  );
}
