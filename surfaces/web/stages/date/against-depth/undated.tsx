/** What nobody dated has the age of its depth. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { printed, Table } from '../../../parts/index.ts';

export function Undated({ history, dated }: { history: HoleHistory; dated: ReadonlySet<string> }) {
  const undated = history.samples.filter(({ sample }) => !dated.has(sample));
  if (undated.length === 0) return null;
  return (
    <Table
      caption={`Samples without a date${history.diagnostics.converged ? '' : ' (not converged: not to be used)'}`}
      columns={[
        { name: 'sample' },
        { name: 'age of the layer', unit: 'cal BP', number: true },
        { name: '95 %', number: true },
      ]}
    >
      {undated.map(({ sample, age_cal_bp }) => (
        <tr key={sample}>
          <th scope="row">{sample}</th>
          <td className="number">{printed(age_cal_bp.median, 0)}</td>
          <td className="number quiet">
            {printed(age_cal_bp.upper95, 0)}–{printed(age_cal_bp.lower95, 0)}
          </td>
        </tr>
      ))}
    </Table>
  );
}
