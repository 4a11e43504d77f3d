/** What is expected next below the shoe, in a few lines: never a reading, and no word of what else may be down there. */
import type { CrewUnit } from '@stillstand/campaign/holes';
import { askedInWords, percentExpected } from '@stillstand/output/words';
import { t, translated } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import type { Ahead, AheadLine } from './ahead.ts';
import { aboutOf, lengthOf } from './ahead-words.ts';
import type { ExpectedHere } from './expected-here.ts';
import './ahead-list.css';

export function AheadList({
  ahead,
  contradictions,
  unit,
  byString,
}: {
  ahead: Ahead | null;
  contradictions: ExpectedHere['contradictions'];
  unit: CrewUnit;
  /** Else it is made by pushes, and has no shoe. */
  byString: boolean;
}) {
  if (ahead === null && contradictions.length === 0) return null;
  return (
    <section className="ahead" aria-labelledby="ahead-title">
      <h2 id="ahead-title">{byString ? t`Expected below the shoe` : t`Expected below`}</h2>
      {contradictions.length === 0 ? null : <Contradicted contradictions={contradictions} />}
      {ahead === null ? null : <Lines ahead={ahead} unit={unit} byString={byString} />}
    </section>
  );
}

function Lines({ ahead, unit, byString }: { ahead: Ahead; unit: CrewUnit; byString: boolean }) {
  const { lines, isDepth, from } = ahead;
  const length = unit === 'ft' ? 'ft' : 'm';
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col">{t`layer`}</th>
            <th scope="col">{isDepth ? t`depth of base, ${length}` : t`elevation of base, ${length}`}</th>
            <th scope="col">95 %</th>
            <th scope="col">{t`is there`}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <Line key={line.key} {...{ line, isDepth, unit, byString }} />
          ))}
        </tbody>
      </table>
      <p className="ahead-note">
        {t`From ${askedInWords(from)}; expected, not seen.`}{' '}
        {t`Services, gas and ordnance are not foretold: every check stays.`}
      </p>
    </>
  );
}

function Line({
  line,
  isDepth,
  unit,
  byString,
}: {
  line: AheadLine;
  isDepth: boolean;
  unit: CrewUnit;
  byString: boolean;
}) {
  const { base, isAbove } = line;
  const about = !isAbove
    ? aboutOf(line)
    : byString
      ? t`should be above the shoe by now`
      : t`should have come up by now`;
  return (
    <>
      <tr>
        <th scope="row">
          {line.sediment ?? t`layer not described`}
          {line.horizon === null ? null : <span>, {line.horizon}</span>}
        </th>
        <td>{lengthOf(base.median, unit, base)}</td>
        <td>
          {lengthOf(base.upper, unit, base)}
          {isDepth ? '–' : t` to `}
          {lengthOf(base.lower, unit, base)}
        </td>
        <td>{percentExpected(line.present)}</td>
      </tr>
      {about === '' ? null : (
        <tr className="about" data-above={isAbove}>
          <td colSpan={4}>{about}</td>
        </tr>
      )}
    </>
  );
}

/** In the words of the problem; where there are more, the others stand with the problems. */
function Contradicted({ contradictions }: Pick<ExpectedHere, 'contradictions'>) {
  const [first, ...others] = contradictions;
  const { unit, severity, found, expected } = first!;
  return (
    <p className="contradicted" data-severity={severity}>
      {severity === 'warning' ? <Mark name="close" size={20} /> : null}
      <span>
        {unit === null ? t`Expected and not met:` : t`Not as expected, layer ${unit}:`}{' '}
        {t`${translated(found)}; expected ${translated(expected)}.`}
        {others.length === 0 ? '' : ` ${t`${others.length} more under Problems.`}`}
      </span>
    </p>
  );
}
