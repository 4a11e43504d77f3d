/** When the edge passed each hole, and how long each environment stood along the line. */
import { type LineThroughTime, type Results, traceId } from '@stillstand/campaign/results';
import { agesInWords, atLeastInWords, innerSide, lastedInWords } from '@stillstand/output/words';
import { printed, Table, Traced } from '../../../parts/index.ts';

export function Passages({ results, line }: { results: Results; line: LineThroughTime }) {
  const { edge } = line;
  if (edge === null)
    return <p>Fewer than two holes say on which side of the edge they were: no edge is followed.</p>;
  return (
    <Table
      caption={`When the edge passed each hole. Inside: ${innerSide(results, line).join(', ')}`}
      columns={[
        { name: 'hole' },
        { name: 'along, m' },
        { name: 'came to lie' },
        { name: 'cal BP' },
        { name: '95 %' },
      ]}
    >
      {edge.passages.length === 0 ? (
        <tr>
          <td colSpan={5} className="quiet">
            It passed none.
          </td>
        </tr>
      ) : null}
      {edge.passages.map(({ hole, along_m, came, age_cal_bp }) => {
        const { median, range } = agesInWords(age_cal_bp);
        return (
          <tr key={`${hole} ${came} ${median}`}>
            <td>{hole}</td>
            <td>{printed(along_m)}</td>
            <td>{came}</td>
            <td>
              <Traced id={traceId.lineThroughTime(line.line)}>{median}</Traced>
            </td>
            <td>{range}</td>
          </tr>
        );
      })}
    </Table>
  );
}

export function Stood({ line: { line, stood } }: { line: LineThroughTime }) {
  if (stood.length === 0) return null;
  return (
    <Table
      caption="How long each environment was there"
      columns={[
        { name: 'environment' },
        { name: 'holes' },
        { name: 'longest in' },
        { name: 'unbroken, yr' },
        { name: '95 %' },
        { name: 'stood unbroken for' },
      ]}
    >
      {stood.map(({ environment, holes, longest_in, unbroken_yr, at_least_yr }) => {
        const { median, range } = lastedInWords(unbroken_yr);
        return (
          <tr key={environment}>
            <td>{environment}</td>
            <td>{holes.join(', ')}</td>
            <td>{longest_in}</td>
            <td>
              <Traced id={traceId.lineThroughTime(line)}>{median}</Traced>
            </td>
            <td>{range}</td>
            <td>{atLeastInWords(at_least_yr)}</td>
          </tr>
        );
      })}
    </Table>
  );
}
