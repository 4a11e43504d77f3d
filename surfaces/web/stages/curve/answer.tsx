/** The rate over the chosen interval, as large as it matters, and what can be said of it and of the curve. */
import { traceId } from '@stillstand/campaign/results';
import {
  changesInWords,
  curveDoubts,
  isReached,
  share,
  shortestSwing,
  UNREACHED,
} from '@stillstand/output/words';
import type { CurveResult, IntervalRate } from '@stillstand/science/curve';
import { useEffect, useId, useState } from 'react';
import { Button, decimalsFor, Mark, printed, signed, Traced } from '../../parts/index.ts';
import { type Interval, written } from './interval.ts';
import { RATE_UNITS, type RateUnit, UNIT_NAMES } from './rate-unit.ts';
import './answer.css';

export function Answer({
  curve,
  interval,
  rate,
  before,
  kept,
  isFinal,
  canKeep,
  unit,
  onUnit,
  onChoose,
  onKeep,
}: {
  curve: CurveResult;
  interval: Interval;
  rate: IntervalRate;
  /** The rate before the last change; null where there was none. */
  before: IntervalRate | null;
  kept: readonly Interval[];
  isFinal: boolean;
  canKeep: boolean;
  unit: RateUnit;
  onUnit: (unit: RateUnit) => void;
  /** Ends as typed. */
  onChoose: (older: number, younger: number) => void;
  /** Takes the interval into the report, or out of it. */
  onKeep: (keep: boolean) => void;
}) {
  const { mean, sd, lower95, upper95 } = rate.rate_mm_yr;
  const k = RATE_UNITS[unit].per_mm_yr;
  const decimals = decimalsFor(2 * sd * k, 0, 3);
  const years = interval.older_cal_bp - interval.younger_cal_bp;
  const isSettled = rate.converged && curve.diagnostics.converged;
  const isKept = kept.some((each) => written(each) === written(interval));
  return (
    <section className="answer" aria-labelledby="rate-of">
      <header>
        <h2 id="rate-of">
          Rate, {printed(interval.older_cal_bp, 0)} to {printed(interval.younger_cal_bp, 0)} cal BP
        </h2>
        <p className="once">± is 2 sd, here and below</p>
      </header>
      <p className="number">
        <Traced id={traceId.interval(interval)}>
          <span className="value">{signed(k * mean, decimals)}</span>
          <span className="unit">{unit}</span>
          <span className="pm">±{printed(2 * k * sd, decimals)}</span>
        </Traced>
        {isSettled ? null : (
          <>
            {' '}
            <Mark name="unconverged" size={28} label="not converged" />
          </>
        )}
      </p>
      {isReached(curve, interval) ? null : (
        <p className="unsure">
          <Mark name="close" size={18} /> {UNREACHED}
        </p>
      )}
      {isSettled ? null : (
        <p className="unsure">
          <Mark name="unconverged" size={18} />{' '}
          {isFinal ? 'Not converged: not to be used' : 'Not converged yet'}
        </p>
      )}
      {isFinal ? <Doubts curve={curve} /> : null}
      <p className="says">
        95 % {signed(k * lower95, decimals)} to {signed(k * upper95, decimals)}. The sea{' '}
        {mean < 0 ? 'fell' : 'rose'}{' '}
        {printed((Math.abs(mean) * years) / 1000, decimalsFor((2 * sd * years) / 1000, 0, 2))} m in the{' '}
        {printed(years, 0)} years, from <Level curve={curve} age={interval.older_cal_bp} /> to{' '}
        <Level curve={curve} age={interval.younger_cal_bp} /> m.
      </p>
      {before === null ? null : (
        <p className="says">
          Before the last change {signed(k * before.rate_mm_yr.mean, decimals)}{' '}
          <span className="pm">±{printed(2 * k * before.rate_mm_yr.sd, decimals)}</span>.
        </p>
      )}
      <Chance rate={rate} unit={unit} />
      <div className="choose">
        <Ends interval={interval} onChoose={onChoose} />
        <UnitField unit={unit} onUnit={onUnit} />
      </div>
      <ul className="kept-intervals" aria-label="Intervals of the report">
        {kept.map((each) => (
          <li key={written(each)}>
            <Button
              kind="bare"
              aria-pressed={written(each) === written(interval)}
              onClick={() => onChoose(each.older_cal_bp, each.younger_cal_bp)}
            >
              {printed(each.older_cal_bp, 0)} to {printed(each.younger_cal_bp, 0)}
            </Button>
          </li>
        ))}
        {canKeep ? (
          <li>
            <Button kind="bare" mark={isKept ? 'cross' : 'plus'} onClick={() => onKeep(!isKept)}>
              {isKept ? 'Remove from report' : 'Add to report'}
            </Button>
          </li>
        ) : null}
      </ul>
    </section>
  );
}

/** What the model of the rate found; points that disagree and ends on one point, or that there is none. */
function Doubts({ curve }: { curve: CurveResult }) {
  const found = curveDoubts(curve);
  const swing = shortestSwing(curve);
  return (
    <>
      {changesInWords(curve).map((text) => (
        <p key={text} className="says">
          {text}.
        </p>
      ))}
      {swing === null ? null : <p className="says">{swing}.</p>}
      {found.length === 0 ? <p className="says">No point disagrees with the others.</p> : null}
      {found.map((text) => (
        <p key={text} className="unsure doubt">
          <Mark name="close" size={18} /> {text}
        </p>
      ))}
    </>
  );
}

/** Sea level at an age the curve reports. */
function Level({ curve, age }: { curve: CurveResult; age: number }) {
  const at = curve.ages_cal_bp.indexOf(age);
  const { mean, sd } = curve.level_m;
  if (at === -1) return <>–</>;
  const decimals = decimalsFor(2 * sd[at]!, 1, 2);
  return (
    <Traced id={traceId.level(age)}>
      {signed(mean[at]!, decimals)} <span className="pm">±{printed(2 * sd[at]!, decimals)}</span>
    </Traced>
  );
}

/** The share of draws above a rate that is asked. */
function Chance({ rate, unit }: { rate: IntervalRate; unit: RateUnit }) {
  const k = RATE_UNITS[unit].per_mm_yr;
  const [typed, setTyped] = useState<string | null>(null);
  const id = useId();
  // A round rate near the mean says most.
  const text = typed ?? String(Math.floor(k * rate.rate_mm_yr.mean));
  const asked = Number(text.replace('−', '-').replace(',', '.'));
  const isRate = text.trim() !== '' && Number.isFinite(asked);
  let above = 0;
  for (const draw of rate.draws) if (k * draw > asked) above += 1;
  return (
    <p className="chance">
      <label htmlFor={id}>Probability of more than</label>{' '}
      <input
        id={id}
        title={`A rate in ${unit}; the share of the curve’s draws that are faster. Usually −5 to 15 mm/yr in the Holocene`}
        inputMode="decimal"
        autoComplete="off"
        value={text}
        onChange={(event) => setTyped(event.target.value)}
      />{' '}
      {unit}: <b>{isRate ? share(above / rate.draws.length, rate.draws.length) : '–'}</b>
    </p>
  );
}

function Ends({
  interval,
  onChoose,
}: {
  interval: Interval;
  onChoose: (older: number, younger: number) => void;
}) {
  const [older, setOlder] = useState(String(interval.older_cal_bp));
  const [younger, setYounger] = useState(String(interval.younger_cal_bp));
  // Each by itself: while one is typed, the other may be moved.
  useEffect(() => setOlder(String(interval.older_cal_bp)), [interval.older_cal_bp]);
  useEffect(() => setYounger(String(interval.younger_cal_bp)), [interval.younger_cal_bp]);
  const id = useId();
  const choose = (): void => {
    const [a, b] = [older, younger].map((text) => Number(text.replaceAll(/[\s,]/g, '').replace('−', '-')));
    const isChange = a !== interval.older_cal_bp || b !== interval.younger_cal_bp;
    if (isChange && Number.isFinite(a) && Number.isFinite(b) && a !== b)
      onChoose(Math.max(a!, b!), Math.min(a!, b!));
  };
  const entry = (value: string, set: (text: string) => void, end: string) => ({
    title: `${end} end of the interval, years before 1950; within the curve, 500 to 2,000 years apart as a rule`,
    inputMode: 'numeric' as const,
    autoComplete: 'off',
    value,
    onChange: (event: React.ChangeEvent<HTMLInputElement>) => set(event.target.value),
    onBlur: choose,
    onKeyDown: (event: React.KeyboardEvent) => {
      if (event.key === 'Enter') choose();
    },
  });
  return (
    <p className="ends">
      <label htmlFor={`${id}-o`}>From</label> <input id={`${id}-o`} {...entry(older, setOlder, 'Older')} />{' '}
      <label htmlFor={`${id}-y`}>to</label>{' '}
      <input id={`${id}-y`} {...entry(younger, setYounger, 'Younger')} /> cal BP
    </p>
  );
}

function UnitField({ unit, onUnit }: { unit: RateUnit; onUnit: (unit: RateUnit) => void }) {
  const id = useId();
  return (
    <p className="unit-of">
      <label className="unseen" htmlFor={id}>
        Unit of rates
      </label>
      <select
        id={id}
        title="1 mm/yr is 10 cm in a century and 1 m in a thousand years"
        value={unit}
        onChange={(event) => onUnit(UNIT_NAMES.find((name) => name === event.target.value) ?? 'mm/yr')}
      >
        {UNIT_NAMES.map((name) => (
          <option key={name}>{name}</option>
        ))}
      </select>
    </p>
  );
}
