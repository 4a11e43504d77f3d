/** Every remark of the computations: what has not converged, number by number, and what was left out. */
import { curveOf, type Results } from '@stillstand/campaign/results';
import type { CurveResult } from '@stillstand/science/curve';
import { each } from '../quantity.tsx';

interface Remark {
  of: string;
  remark: string;
}

/** Of one curve. */
export const curveRemarks = (curve: CurveResult | null, of: string): Remark[] =>
  (curve?.diagnostics.remarks ?? []).map((remark) => ({ of, remark }));

/** Of the report's curve first, then of the ages along each hole; other curves have theirs with them. */
export function remarksOf(results: Results): Remark[] {
  return [
    ...curveRemarks(curveOf(results), 'the curve'),
    ...results.histories.flatMap(({ hole, diagnostics }) =>
      diagnostics.remarks.map((remark) => ({ of: `ages along hole ${hole}`, remark })),
    ),
  ];
}

export function Unsettled({ remarks }: { remarks: readonly Remark[] }) {
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
