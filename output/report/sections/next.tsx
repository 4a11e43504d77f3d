/** What one more date, or two together, would do to each rate; and when that does not bind. */
import type { Dating } from '@stillstand/campaign/budget';
import { curveOf, type Results } from '@stillstand/campaign/results';
import {
  choiceKind,
  columnDecimals,
  type DateChoice,
  datingsOf,
  fundsInWords,
  nextDates,
  notRanked,
  payableInWords,
  price,
  pricesInWords,
  printed,
  promiseAssumes,
  promiseDoubtsOf,
  signed,
  successInWords,
  togetherInWords,
  yearRange,
  years,
} from '@stillstand/output/words';
import { Caution, ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';

/** Layers named for one reason; the rest are counted. */
const NAMED = 6;

export function WhatNext({ results, dating }: { results: Results; dating: Dating | null }) {
  const curve = curveOf(results);
  const { of, layers, plan, isAssumed } = nextDates(results, dating);
  const [first] = of;
  if (curve === null || first === undefined) return null;
  const rows = of.flatMap(({ interval, rate, choices }) =>
    choices
      .filter(({ choice }) => choice.isWorth)
      .map((choice) => ({ interval, now: 2 * rate.rate_mm_yr.sd, ...choice })),
  );
  const priced = pricesInWords(plan);
  const decimals = rows.length === 0 ? 1 : columnDecimals(rows.map((row) => row.now / 2));
  return (
    <>
      {rows.length === 0 ? (
        <p className="q">No date would narrow a reported rate by as much as a fiftieth.</p>
      ) : (
        <>
          <table className="whole">
            <caption>What more dates would do</caption>
            <thead>
              <tr>
                <th>rate over, cal BP</th>
                <th>dating</th>
                <th className="n">about, cal BP</th>
                <th className="n">near, m</th>
                <th className="n">± now, mm/yr</th>
                <th className="n">± with it</th>
                {priced === null ? null : <th className="n">price</th>}
                <ConvergedHead {...curve.diagnostics} />
              </tr>
            </thead>
            <tbody>
              {each(rows, ({ interval, now, kind, choice }) => (
                <tr>
                  <td className="nb">{yearRange(interval.older_cal_bp, interval.younger_cal_bp)}</td>
                  <td>
                    {kind === 'one' ? '' : `${choiceKind(kind)}: `}
                    {datingsOf(choice, layers.names)}
                  </td>
                  <td className="n">{choice.dates.map((d) => years(d.age_cal_bp.mean)).join('; ')}</td>
                  <td className="n">{choice.dates.map((d) => signed(d.level_m.mean, 1)).join('; ')}</td>
                  <td className="n">{printed(now, decimals)}</td>
                  <td className="n">{printed(now * choice.left, decimals)}</td>
                  {priced === null ? null : <td className="n">{price(choice.price)}</td>}
                  <ConvergedCell {...curve.diagnostics} />
                </tr>
              ))}
            </tbody>
          </table>
          {each(of, ({ interval, rate, payable }) =>
            payable === null ? null : (
              <p>
                {of.length === 1
                  ? ''
                  : `${yearRange(interval.older_cal_bp, interval.younger_cal_bp)} cal BP. `}
                {payableInWords(payable, plan, 2 * rate.rate_mm_yr.sd, decimals, 'mm/yr')}
              </p>
            ),
          )}
          {each(of, ({ interval, choices }) => (
            <Together interval={interval} choices={choices} isOne={of.length === 1} />
          ))}
          <p className="q">
            Estimated from the draws, on average over what the dates may turn out to be (2σ).{' '}
            {successInWords(first.next, plan, isAssumed, curve)} {priced ?? ''} Monte-Carlo errors of ± with
            it are at most {printed(100 * Math.max(...rows.map(({ choice }) => choice.mcse)), 1)} % of ± now;
            what narrows ± by less than a fiftieth, or than twice that error, is left out. The layers are not
            yet dated.
          </p>
        </>
      )}
      {each(fundsInWords(dating?.account ?? null, plan), (words) => (
        <p>{words}</p>
      ))}
      <p className="q">{promiseAssumes(curve)}</p>
      {each(
        of.flatMap(({ interval }) =>
          promiseDoubtsOf(results, interval).map(
            (doubt) => `${yearRange(interval.older_cal_bp, interval.younger_cal_bp)} cal BP. ${doubt}`,
          ),
        ),
        (doubt) => (
          <p>
            <span style={{ color: 'var(--caution)' }}>
              <Caution />
            </span>{' '}
            {doubt}
          </p>
        ),
      )}
      {each(notRanked(first.next.far, layers), ({ why, names }) => (
        <p className="q">
          Not ranked, {why}: {names.slice(0, NAMED).join('; ')}
          {names.length > NAMED ? ` and ${printed(names.length - NAMED)} more` : ''}.
        </p>
      ))}
    </>
  );
}

function Together({
  interval,
  choices,
  isOne,
}: {
  interval: { older_cal_bp: number; younger_cal_bp: number };
  choices: readonly DateChoice[];
  isOne: boolean;
}) {
  const said = choices.flatMap((choice) => {
    const words = choice.choice.isWorth ? togetherInWords(choice) : null;
    return words === null ? [] : [choice.kind === 'two' ? words : `Two layers: ${words}`];
  });
  if (said.length === 0) return null;
  return (
    <p className="q">
      {isOne ? '' : `${yearRange(interval.older_cal_bp, interval.younger_cal_bp)} cal BP. `}
      {said.join(' ')}
    </p>
  );
}
