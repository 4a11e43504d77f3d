/** What was measured in a hole: drawn or not, and each value with the way to its readings. */
import type { LogPoint, LogResult, Results } from '@stillstand/campaign/results';
import { traceId } from '@stillstand/campaign/results';
import { type Lane, laneName } from '@stillstand/output/figures';
import { raised } from '@stillstand/output/words';
import { counted, printed, Quantity, Table } from '../../../parts/index.ts';

export function Quantities({
  results,
  hole,
  lanes,
  hidden,
  onToggle,
}: {
  results: Results;
  hole: string;
  lanes: readonly Lane[];
  hidden: ReadonlySet<string>;
  onToggle: (name: string) => void;
}) {
  const logs = results.logs.filter((log) => log.hole === hole);
  return (
    <ul className="quantities">
      {lanes.map((lane) => {
        const name = laneName(lane);
        const log = lane.kind === 'grains' ? undefined : logs.find((each) => isOf(each, lane));
        return (
          <li key={name}>
            <label>
              <input type="checkbox" checked={!hidden.has(name)} onChange={() => onToggle(name)} />
              <span>{lane.property}</span>
            </label>
            {lane.kind === 'grains' || log === undefined ? (
              <span className="quiet">
                {lane.kind === 'grains'
                  ? counted(lane.samples.length, 'analysis', 'analyses')
                  : raised(lane.unit)}
              </span>
            ) : (
              <Values log={log} />
            )}
          </li>
        );
      })}
    </ul>
  );
}

/** A lane may count in thousandths, which its unit says first. */
const isOf = ({ property, unit }: LogResult, lane: Lane): boolean =>
  property === lane.property && lane.unit.endsWith(unit ?? '');

function Values({ log }: { log: LogResult }) {
  return (
    <details>
      <summary>
        {counted(log.points.length, 'value')}
        {log.unit === null ? '' : `, ${raised(log.unit)}`}
      </summary>
      <Table
        caption={`${log.property} in ${log.hole}`}
        columns={[
          { name: 'depth', unit: 'm', number: true },
          { name: 'value', number: true, ...(log.unit === null ? {} : { unit: raised(log.unit) }) },
          { name: 'from' },
        ]}
      >
        {log.points.map((point) => (
          <tr key={point.trace}>
            <td className="number">
              <Quantity value={point.depth_m.value} sigma={point.depth_m.sigma} decimals={2} />
            </td>
            <td className="number">
              <Value point={point} />
            </td>
            <td>
              {point.sample ?? ''}
              {point.computed === 'from_weights' ? ' weights' : ''}
            </td>
          </tr>
        ))}
      </Table>
    </details>
  );
}

const LIMIT = { less_than: '< ', greater_than: '> ' } as const;

function Value({ point: { trace, value, sigma, qualifier } }: { point: LogPoint }) {
  if (qualifier === 'not_determined') return <>not determined</>;
  if (value === null) return <>{qualifier === 'less_than' ? 'below detection' : 'no value'}</>;
  const id = traceId.typed(trace);
  const typed = /\.(\d+)$/.exec(String(value))?.[1]?.length ?? 0;
  const decimals = Math.min(3, typed);
  return (
    <>
      {qualifier === null ? '' : LIMIT[qualifier]}
      {sigma === null ? (
        <Quantity value={value} decimals={decimals} id={id} />
      ) : (
        <Quantity value={value} sigma={sigma} id={id} />
      )}
    </>
  );
}

/** Per cent in a table. */
export const percent = (value: number | null): string => (value === null ? '–' : printed(value, 0));
