/** Every remark of the computations: what has not converged, number by number, and what was left out. */
import type { Results } from '@stillstand/campaign/results';
import { each } from '../quantity.tsx';

/** Of the curve first, then of those of other sites, then of the ages along each hole. */
export function remarksOf(results: Results): { of: string; remark: string }[] {
  return [
    ...results.curves.flatMap(({ id, role, curve }) =>
      (curve?.diagnostics.remarks ?? []).map((remark) => ({
        of: role === 'headline' ? 'the curve' : `the curve of ${id}`,
        remark,
      })),
    ),
    ...results.histories.flatMap(({ hole, diagnostics }) =>
      diagnostics.remarks.map((remark) => ({ of: `ages along hole ${hole}`, remark })),
    ),
  ];
}

export function Unsettled({ results }: { results: Results }) {
  const remarks = remarksOf(results);
  if (remarks.length === 0) return null;
  return (
    <table className="whole">
      <caption>What has not converged or was left out</caption>
      <thead>
        <tr>
          <th>of</th>
          <th>remark</th>
        </tr>
      </thead>
      <tbody>
        {each(remarks, ({ of, remark }) => (
          <tr>
            <td>{of}</td>
            <td>{remark}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
