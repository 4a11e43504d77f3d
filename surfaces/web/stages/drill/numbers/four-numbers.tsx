/** The four numbers, each with its unit, its ± and the sum that made it; the last on the plate of what is at risk. */

import type { Basis } from '@stillstand/campaign/holes';
import type { TraceId } from '@stillstand/campaign/results';
import type { ReactNode } from 'react';
import { t, translated } from '../../../language/index.ts';
import { Mark, Traced } from '../../../parts/index.ts';
import type { BigNumber } from './big-number.ts';
import './four-numbers.css';

interface FourNumbersProps {
  numbers: readonly [BigNumber, BigNumber, BigNumber, BigNumber];
  /** Opens the form that says otherwise than what is assumed. */
  onBasis: (form: 'waters' | 'gear') => void;
  /** What all of them were folded from, in the trace; null before the first reading. */
  trace: TraceId | null;
  /** Safety questions answered no: above the numbers, which give way. */
  plate?: ReactNode;
}

/** All that a number rests on, in one line; a press on it says otherwise. */
const basisWords = (basis: readonly Basis[]): string => basis.map((b) => translated(b.says)).join(', ');

export function FourNumbers({ numbers, onBasis, trace, plate = null }: FourNumbersProps) {
  const [shoe, plug, recovery, risk] = numbers;
  // said once, where the line has room
  const legend = numbers.findIndex((n, i) => i < 3 && n.age === null && n.also === null);
  return (
    <section className="numbers" aria-label={t`the numbers that matter`} data-hazard={plate !== null}>
      {plate}
      {[shoe, plug, recovery].map((n, i) => (
        <div className="number" key={n.name}>
          <h2>
            {n.name} <Crew number={n} />
            {n.age !== null ? <Age number={n} /> : n.also !== null ? <Also also={n.also} /> : null}
            {i === legend ? <small>{t`± is 2σ`}</small> : null}
          </h2>
          <Big number={n} trace={trace} />
          {n.isEmpty ? null : <p className="sum">{n.sum}</p>}
        </div>
      ))}
      <div
        className="risk"
        data-level={risk.level}
        data-rests={risk.basis !== null}
        role={risk.level === 'danger' ? 'alert' : undefined}
      >
        <h2>
          {risk.name} <Crew number={risk} />
          {risk.age === null || risk.word !== '' ? null : <Age number={risk} />}
        </h2>
        {risk.word === '' ? null : (
          <p className="word">
            <Mark name={risk.level === 'danger' ? 'stop' : 'close'} size={32} />
            {risk.word}
          </p>
        )}
        <Big number={risk} trace={trace} />
        {risk.isEmpty ? null : (
          <p className="sum">
            {risk.sum}
            {risk.age === null || risk.word === '' ? null : `; ${risk.age}`}
          </p>
        )}
        {risk.say === '' ? null : <p className="say">{risk.say}</p>}
        {risk.basis === null ? null : <RestsOn basis={risk.basis} onBasis={onBasis} />}
      </div>
    </section>
  );
}

/** What was not measured: a broken ring and the word while it is assumed; a press says it. */
function RestsOn({
  basis,
  onBasis,
}: {
  basis: NonNullable<BigNumber['basis']>;
  onBasis: FourNumbersProps['onBasis'];
}) {
  const assumed = basis.of.filter((b) => b.assumed);
  const said = basis.of.filter((b) => !b.assumed);
  return (
    <button type="button" className="rests-on" data-form={basis.form} onClick={() => onBasis(basis.form)}>
      {assumed.length === 0 ? null : <Mark name="assumed" size={20} />}
      <span>
        {assumed.length === 0 ? null : (
          <>
            {t`assumed:`} <span className="assumed">{basisWords(assumed)}</span>
          </>
        )}
        {assumed.length > 0 && said.length > 0 ? '; ' : ''}
        {basisWords(said)}
      </span>
    </button>
  );
}

/** How old the reading is that the number rests on. */
const Age = ({ number }: { number: BigNumber }) => (
  <small className="age">
    <Mark name="old" size={18} /> {number.age}
  </small>
);

/** Of the same reading: the rate of the drive, with the depth of the shoe. */
function Also({ also }: { also: NonNullable<BigNumber['also']> }) {
  return (
    <small className="also" data-level={also.level}>
      {also.level === 'normal' ? null : <Mark name={also.level === 'danger' ? 'stop' : 'close'} size={20} />}
      <strong>{also.value}</strong> {also.unit}
    </small>
  );
}

/** The number in feet and inches, for a crew whose tape has them. */
const Crew = ({ number }: { number: BigNumber }) =>
  number.crew === null ? null : <span className="crew">{number.crew}</span>;

function Big({ number: n, trace }: { number: BigNumber; trace: TraceId | null }) {
  return (
    <p
      className="big"
      data-long={(n.value?.length ?? 0) > 4 || n.unit.length > 2}
      data-longer={(n.value?.length ?? 0) > 6}
      data-old={n.age !== null}
    >
      {n.value === null ? (
        <span className="value">
          <span className="blank" data-empty={n.isEmpty}>
            {n.isEmpty ? n.sum : t`not read`}
          </span>
        </span>
      ) : trace === null ? (
        <span className="value">{n.value}</span>
      ) : (
        <Traced id={trace}>
          <span className="value">{n.value}</span>
        </Traced>
      )}
      {n.value === null || n.unit === '' ? null : <i>{n.unit}</i>}
      {n.value === null || n.spread === null ? null : <b>±{n.spread}</b>}
    </p>
  );
}
