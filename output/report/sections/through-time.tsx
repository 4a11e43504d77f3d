/** Environments through time: when the edge passed, how long environments stood, and whether they kept up with the sea. */
import { type LineThroughTime, type Results, traceId } from '@stillstand/campaign/results';
import {
  againstTheSea,
  agesInWords,
  atLeastInWords,
  innerSide,
  lastedInWords,
  likely,
  notConvergedHoles,
  printed,
  rateInWords,
  spellName,
  THROUGH_TIME_ASSUMES,
} from '@stillstand/output/words';
import { NotConverged } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';

export function ThroughTime({ results }: { results: Results }) {
  const open = notConvergedHoles(results);
  return (
    <>
      {open.length === 0 ? null : (
        <p className="not-converged">
          <NotConverged /> Ages against depth of {open.join(', ')} have not converged: do not use the rows of{' '}
          {open.length === 1 ? 'this hole' : 'these holes'}, nor those of a line through{' '}
          {open.length === 1 ? 'it' : 'them'}.
        </p>
      )}
      {each(results.lines_through_time, (line) => (
        <>
          <h3>{line.line === null ? 'All holes' : `Line ${line.line}`}</h3>
          <Passages results={results} line={line} />
          <Stood line={line} />
        </>
      ))}
      <KeptUp results={results} />
      <p className="q">{THROUGH_TIME_ASSUMES.join(' ')}</p>
    </>
  );
}

function Passages({ results, line: { edge, ...line } }: { results: Results; line: LineThroughTime }) {
  if (edge === null)
    return <p>Fewer than two holes say on which side of the edge they were: no edge is followed.</p>;
  return (
    <table className="whole" style={{ maxWidth: '150mm' }}>
      <caption>
        When the edge passed each hole. Inside: {innerSide(results, { edge, ...line }).join(', ')}.
      </caption>
      <thead>
        <tr>
          <th>hole</th>
          <th className="n">along the line, m</th>
          <th>the hole came to lie</th>
          <th className="n">cal BP</th>
          <th className="n">95 %</th>
        </tr>
      </thead>
      <tbody>
        {each(edge.passages, ({ hole, along_m, came, age_cal_bp }) => {
          const age = agesInWords(age_cal_bp);
          return (
            <tr>
              <td className="id">{hole}</td>
              <td className="n">{printed(along_m)}</td>
              <td>{came}</td>
              <td className="n">
                <From id={traceId.lineThroughTime(line.line)}>{age.median}</From>
              </td>
              <td className="n">{age.range}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Stood({ line: { line, stood } }: { line: LineThroughTime }) {
  if (stood.length === 0) return null;
  return (
    <table className="whole">
      <caption>
        How long each environment was there: from the hole that had it first to the one that had it last, and
        without a break in the one that had it longest.
      </caption>
      <thead>
        <tr>
          <th>environment</th>
          <th>holes</th>
          <th>first in</th>
          <th className="n">from, cal BP</th>
          <th className="n">95 %</th>
          <th>last in</th>
          <th className="n">to, cal BP</th>
          <th className="n">95 %</th>
          <th>longest in</th>
          <th className="n">unbroken, yr</th>
          <th className="n">95 %</th>
          <th>stood unbroken for</th>
        </tr>
      </thead>
      <tbody>
        {each(
          stood,
          ({ environment, holes, began_cal_bp, ended_cal_bp, unbroken_yr, at_least_yr, ...by }) => {
            const [began, ended, long] = [
              agesInWords(began_cal_bp),
              agesInWords(ended_cal_bp),
              lastedInWords(unbroken_yr),
            ];
            return (
              <tr>
                <td>{environment}</td>
                <td>{holes.join(', ')}</td>
                <td>{by.began_in}</td>
                <td className="n">{began.median}</td>
                <td className="n">{began.range}</td>
                <td>{by.ended_in}</td>
                <td className="n">{ended.median}</td>
                <td className="n">{ended.range}</td>
                <td>{by.longest_in}</td>
                <td className="n">
                  <From id={traceId.lineThroughTime(line)}>{long.median}</From>
                </td>
                <td className="n">{long.range}</td>
                <td>{atLeastInWords(at_least_yr)}</td>
              </tr>
            );
          },
        )}
      </tbody>
    </table>
  );
}

function KeptUp({ results }: { results: Results }) {
  const rows = againstTheSea(results.environments);
  if (rows.length === 0) return null;
  return (
    <>
      <h3>Against the sea</h3>
      <table className="whole">
        <caption>Mean accretion of each environment, and mean rise of sea level while it stood.</caption>
        <thead>
          <tr>
            <th>hole</th>
            <th>environment</th>
            <th>layers</th>
            <th className="n">accretion, mm/yr</th>
            <th className="n">95 %</th>
            <th className="n">rise of the sea, mm/yr</th>
            <th className="n">95 %</th>
            <th className="n">kept up, probability</th>
          </tr>
        </thead>
        <tbody>
          {each(rows, ({ hole, spell, sea }) => {
            const [accretion, rise] = [rateInWords(sea.accretion_mm_yr), rateInWords(sea.rise_mm_yr)];
            return (
              <tr>
                <td className="id">{hole}</td>
                <td>{spellName(spell)}</td>
                <td>{spell.units.map(({ unit }) => unit).join(', ')}</td>
                <td className="n">
                  <From id={traceId.environments(hole)}>{accretion.median}</From>
                </td>
                <td className="n">{accretion.range}</td>
                <td className="n">{rise.median}</td>
                <td className="n">{rise.range}</td>
                <td className="n">{likely(sea.kept_up)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p className="q">
        An environment kept up where its ground rose at least as much as the sea while it stood. Draws that
        the curve does not reach are left out.
      </p>
    </>
  );
}
