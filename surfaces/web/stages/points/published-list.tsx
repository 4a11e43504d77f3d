/** Points of the literature: each opens its row. Drawn with the curve, in none of its numbers. */
import type { Results } from '@stillstand/campaign/results';
import { Mark, printed, signed } from '../../parts/index.ts';
import { useOpenRow } from '../../shell/index.ts';
import type { DocRow } from '../../store/index.ts';
import { listClass } from './find-point.ts';

export function PublishedList({ rows, results }: { rows: readonly DocRow[]; results: Results | null }) {
  const openRow = useOpenRow();
  if (rows.length === 0) return null;
  const byRow = new Map(results?.published.map((point) => [point.row_id, point]));
  return (
    <section aria-labelledby="published-points">
      <h2 id="published-points">Published points</h2>
      <p className="quiet">Drawn with the curve, in none of its numbers.</p>
      <ul className={listClass(rows.map(({ cells }) => cells['point'] ?? ''))}>
        {rows.map(({ row_id, cells }) => {
          const made = byRow.get(row_id) ?? null;
          return (
            <li key={row_id}>
              <button type="button" onClick={() => openRow({ table: 'compiled_points', row_id })}>
                <Mark name="note" size={20} />
                <span className="label">{cells['point']}</span>
                <span className="value">
                  {made === null ? (results === null ? '' : 'not drawn') : signed(made.rsl_m, 1)}
                </span>
                <span className="age">{made === null ? '' : printed(made.age.median_cal_bp, 0)}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
