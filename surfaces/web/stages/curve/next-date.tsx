/** Where more dates would narrow the chosen rate most: through time, for each layer that waits for one, for two together. */
import type { DateAccount } from '@stillstand/campaign/budget';
import type { SettingName } from '@stillstand/campaign/settings';
import {
  choiceKind,
  choicesOf,
  datingOf,
  fundsInWords,
  type LayersToDate,
  notRanked,
  type Payable,
  payableInWords,
  price,
  pricesInWords,
  promiseAssumes,
  promiseDoubts,
  successInWords,
  togetherInWords,
} from '@stillstand/output/words';
import type { Choice, CurveResult, DatePlan, RatesCompared, WhatToDate } from '@stillstand/science/curve';
import { Fragment } from 'react';
import { ColumnField, decimalsFor, Mark, printed, signed } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import type { Interval } from './interval.ts';
import { RATE_UNITS, type RateUnit } from './rate-unit.ts';
import { Unsettled } from './unsettled.tsx';
import './next-date.css';

/** Single dates shown here; the report has all. */
const NAMED = 4;

export function NextDate({
  next,
  payable,
  account,
  curve,
  interval,
  compared,
  sd_mm_yr,
  unit,
  layers,
  plan,
  isAssumed,
  onPoint,
}: {
  next: WhatToDate;
  payable: Payable | null;
  account: DateAccount | null;
  /** What it is estimated from. */
  curve: CurveResult;
  interval: Interval;
  compared: RatesCompared;
  /** Of the rate as it is. */
  sd_mm_yr: number;
  unit: RateUnit;
  layers: LayersToDate;
  plan: DatePlan;
  /** Nobody said how many dates fail. */
  isAssumed: boolean;
  onPoint: (label: string) => void;
}) {
  const now = 2 * sd_mm_yr * RATE_UNITS[unit].per_mm_yr;
  const decimals = decimalsFor(now, 0, 3);
  const worth = choicesOf(next).filter(({ choice }) => choice.isWorth);
  const shown = worth.filter(({ kind }) => kind === 'one').slice(0, NAMED);
  const rows = [...shown, ...worth.filter(({ kind }) => kind !== 'one')];
  const priced = pricesInWords(plan);
  const doubts = promiseDoubts(curve, interval, compared);
  return (
    <section className="next-date" aria-labelledby="next-date">
      <h2 id="next-date">
        What to date next <Unsettled curve={curve} isFinal />
      </h2>
      {doubts.map((doubt) => (
        <p className="unsure" key={doubt}>
          <Mark name="close" size={16} /> {doubt}
        </p>
      ))}
      {rows.length === 0 ? (
        <p className="quiet">No date would narrow it by as much as a fiftieth.</p>
      ) : (
        <>
          <Through next={next} />
          <p>
            Now ±{printed(now, decimals)} {unit}; then, with one of these:
          </p>
          <table>
            <thead>
              <tr>
                <th scope="col">dating</th>
                <th scope="col" className="n">
                  cal BP
                </th>
                <th scope="col" className="n">
                  near, m
                </th>
                {priced === null ? null : (
                  <th scope="col" className="n">
                    price
                  </th>
                )}
                <th scope="col" className="n">
                  ± then
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ kind, choice }, i) => (
                <Fragment key={`${kind} ${choice.dates.map(({ point }) => point).join()}`}>
                  {payable?.count === i && i < shown.length ? (
                    <tr className="budget-ends">
                      <th scope="rowgroup" colSpan={priced === null ? 4 : 5}>
                        the budget ends here
                      </th>
                    </tr>
                  ) : null}
                  {kind === 'one' ? null : (
                    <tr className="kind">
                      <th scope="rowgroup" colSpan={priced === null ? 4 : 5}>
                        {choiceKind(kind)}
                      </th>
                    </tr>
                  )}
                  {linesOf(choice).map(({ key, isFirst, point, age_cal_bp, level_m }) => (
                    <tr key={key}>
                      <th scope="row">
                        {point === null ? (
                          'a new index point'
                        ) : (
                          <button type="button" onClick={() => onPoint(point)}>
                            {datingOf(point, layers.names)}
                          </button>
                        )}
                      </th>
                      <td className="n">
                        {printed(age_cal_bp.mean, 0)}
                        {age_cal_bp.sd > 0 ? <i> ±{printed(2 * age_cal_bp.sd, 0)}</i> : null}
                      </td>
                      <td className="n">{signed(level_m.mean, 1)}</td>
                      {priced === null ? null : <td className="n">{isFirst ? price(choice.price) : ''}</td>}
                      <td className="n then">{isFirst ? printed(now * choice.left, decimals) : ''}</td>
                    </tr>
                  ))}
                </Fragment>
              ))}
            </tbody>
          </table>
          {payable === null ? null : (
            <p className="payable">{payableInWords(payable, plan, now, decimals, unit)}</p>
          )}
          {rows.map((row) => {
            const words = togetherInWords(row);
            return words === null ? null : (
              <p key={row.kind}>
                {row.kind === 'two layers' ? 'Two layers: ' : ''}
                {words}
              </p>
            );
          })}
          <p className="quiet">
            Estimated from the draws; what narrows it by less than a fiftieth, or than their noise, is left
            out. {successInWords(next, plan, isAssumed, curve)} {priced}
          </p>
        </>
      )}
      {fundsInWords(account, plan).map((words) => (
        <p className="funds" key={words}>
          {words}
        </p>
      ))}
      <p className="quiet">{promiseAssumes(curve)}</p>
      <NotRanked far={next.far} layers={layers} />
      <Plan />
    </section>
  );
}

/** Of one choice, a line a date; two new points may have one age. */
const linesOf = ({ dates }: Choice): (Choice['dates'][number] & { key: string; isFirst: boolean })[] =>
  dates.map((date, k) => ({ ...date, key: `${k}`, isFirst: k === 0 }));

/** Layers named for one reason; the report names all. */
const NOT_RANKED = 3;

function NotRanked({ far, layers }: { far: readonly string[]; layers: LayersToDate }) {
  return notRanked(far, layers).map(({ why, names }) => (
    <p className="quiet" key={why}>
      Not ranked, {why}: {names.slice(0, NOT_RANKED).join('; ')}
      {names.length > NOT_RANKED ? ` and ${printed(names.length - NOT_RANKED, 0)} more` : ''}.
    </p>
  ));
}

const PLAN: readonly {
  setting: SettingName;
  name: string;
  help: { about: string; range?: string; taken?: string; source?: string };
}[] = [
  {
    setting: 'date_fails_percent',
    name: 'Dates without a result, %',
    help: {
      about: 'How many samples give no date: too little carbon, or lost; 5 where nothing is written',
      range: '2 to 15 %',
      taken: '0 to 95 %',
      source: 'Common practice, no source',
    },
  },
  {
    setting: 'date_price',
    name: 'Price of a date',
    help: { about: 'In any money; empty to count dates', taken: '0.01 on' },
  },
  {
    setting: 'core_price',
    name: 'Price of a core',
    help: { about: 'What a new point costs next to its date, in the same money; 0 where nothing is written' },
  },
  {
    setting: 'date_budget',
    name: 'Budget',
    help: { about: 'What may be spent next, in the same money; where dates are counted, how many dates' },
  },
  {
    setting: 'date_funds',
    name: 'Funds for dates',
    help: {
      about:
        'All that may be spent on dates, from the first one on, in the same money; where dates are counted, how many dates. What was spent, and what is sent and waiting, is taken off',
    },
  },
];

/** What dates cost and how they go: settings of the campaign. */
function Plan() {
  const store = useStore();
  return (
    <details className="date-plan">
      <summary>Prices and failures</summary>
      <div className="fields">
        {PLAN.map(({ setting, name, help }) => (
          <ColumnField
            key={setting}
            table="settings"
            column="value"
            name={name}
            help={help}
            value={store.setting(setting) ?? ''}
            disabled={store.readOnly}
            onCommit={(typed) => store.setSetting(setting, typed.trim().replace(',', '.'))}
          />
        ))}
      </div>
    </details>
  );
}

const HEIGHT = 30;

/** How much of ± a new point would take away, by its age; older at the left, as on the drawing. */
function Through({ next: { through } }: { next: WhatToDate }) {
  const ages = through.map((r) => r.age_cal_bp);
  const [young, old] = [Math.min(...ages), Math.max(...ages)];
  const best = through.reduce((a, b) => (b.left < a.left ? b : a));
  const gain = (r: { left: number }): number => 1 - r.left;
  if (!(old > young) || !(gain(best) > 0)) return null;
  const x = (age: number): number => (100 * (old - age)) / (old - young);
  const y = (r: { left: number }): number => HEIGHT - (HEIGHT * gain(r)) / gain(best);
  const top = [...through]
    .sort((a, b) => b.age_cal_bp - a.age_cal_bp)
    .map((r) => `${x(r.age_cal_bp).toFixed(2)} ${y(r).toFixed(2)}`);
  const words = `A new index point would narrow it most at ${printed(best.age_cal_bp, 0)} cal BP, by ${printed(100 * gain(best), 0)} %.`;
  return (
    <figure className="through">
      <svg viewBox={`0 0 100 ${HEIGHT}`} preserveAspectRatio="none" role="img" aria-label={words}>
        <path className="area" d={`M0 ${HEIGHT}L${top.join('L')}L100 ${HEIGHT}Z`} />
        <path className="edge" d={`M${top.join('L')}`} />
        <path className="best" d={`M${x(best.age_cal_bp).toFixed(2)} 0V${HEIGHT}`} />
      </svg>
      <figcaption aria-hidden="true">
        <span>{printed(old, 0)}</span>
        <span>
          narrows it by {printed(100 * gain(best), 0)} % at {printed(best.age_cal_bp, 0)} cal BP
        </span>
        <span>{printed(young, 0)}</span>
      </figcaption>
    </figure>
  );
}
