/** Every point as the curve has it: on or off, how far its age was moved, what is left over. */
import { type Results, traceId } from '@stillstand/campaign/results';
import { memo } from 'react';
import { Mark, signed, Traced } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { SmallMark } from '../points/point-list.tsx';
import type { Deciding } from './decides.tsx';

/** Drawn again only when the points or their order change. */
export const PointsTable = memo(function PointsTable({
  results,
  deciding,
  current,
  onPoint,
}: {
  results: Results;
  deciding: Deciding;
  current: string | null;
  onPoint: (label: string) => void;
}) {
  const inCurve = new Map(results.curve?.points.map((point) => [point.id, point]));
  const growth = new Map(deciding.map((point) => [point.id, point.growth]));
  const points = [...results.points].sort(
    (a, b) =>
      (growth.get(b.point) ?? -1) - (growth.get(a.point) ?? -1) || b.age.median_cal_bp - a.age.median_cal_bp,
  );
  const moved = [...inCurve.values()].filter((point) => Math.abs(point.age_shift_sd) > 1).length;
  return (
    <section className="points-table" aria-labelledby="points-in-curve">
      <h2 id="points-in-curve">Points in the curve</h2>
      <p className="quiet">
        Those that decide the rate most first.
        {moved === 0
          ? ''
          : ` ${moved === 1 ? 'One age was' : `${moved} ages were`} moved by more than 1 sd: look at the sample again.`}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="scroll" tabIndex={0} aria-label="Table of points">
        <table>
          <thead>
            <tr>
              <th scope="col">on</th>
              <th scope="col">point</th>
              <th scope="col" className="n">
                sea level, m
              </th>
              <th scope="col" className="n">
                residual, m
              </th>
              <th scope="col" className="n">
                age moved, sd
              </th>
            </tr>
          </thead>
          <tbody>
            {points.map((point) => {
              const found = inCurve.get(point.point);
              const isFar = found !== undefined && Math.abs(found.age_shift_sd) > 1;
              const isOdd = found !== undefined && isUnlikely(point.kind, found.predictive_p);
              return (
                <tr
                  key={point.row_id}
                  className={point.status}
                  aria-current={point.point === current ? 'true' : undefined}
                >
                  <td>
                    <Switch label={point.point} row_id={point.row_id} isOn={point.status === 'accepted'} />
                  </td>
                  <th scope="row">
                    <button type="button" onClick={() => onPoint(point.point)}>
                      <SmallMark point={point} /> {point.point}
                    </button>
                  </th>
                  <td className="n">
                    {point.kind === 'index' ? '' : point.kind === 'terrestrial' ? 'below ' : 'above '}
                    <Traced id={traceId.point(point.point).rsl}>{signed(point.rsl_m, 2)}</Traced>
                  </td>
                  <td className={isOdd ? 'n far' : 'n'}>
                    {isOdd ? <Mark name="close" size={14} label="unlikely under the curve" /> : null}{' '}
                    {found === undefined || point.kind !== 'index' ? (
                      ''
                    ) : (
                      <Traced id={traceId.point(point.point).residual}>{signed(found.residual_m, 2)}</Traced>
                    )}
                  </td>
                  <td className={isFar ? 'n far' : 'n'}>
                    {found === undefined ? (
                      ''
                    ) : (
                      <>
                        {isFar ? <Mark name="close" size={14} label="moved far" /> : null}{' '}
                        <Traced id={traceId.point(point.point).ageInCurve}>
                          {signed(found.age_shift_sd, 1)}
                        </Traced>
                      </>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </section>
  );
});

/** A height the curve would hardly find again: outside 95 % of what it foretells; a limit it hardly keeps to. */
const isUnlikely = (kind: string, predictive_p: number | null): boolean =>
  predictive_p !== null && (predictive_p < 0.025 || (kind === 'index' && predictive_p > 0.975));

/** Takes a point into the curve or out of it; the reason is asked where the point is shown. */
export function Switch({ label, row_id, isOn }: { label: string; row_id: string; isOn: boolean }) {
  const store = useStore();
  // The row says it before the results do.
  const cell = store
    .rows('points')
    .find((row) => row.row_id === row_id)
    ?.cells['status']?.trim();
  const on = cell === undefined || cell === '' ? isOn : cell !== 'rejected';
  return (
    <button
      type="button"
      className="switch"
      role="switch"
      aria-checked={on}
      aria-label={`${label} in the curve`}
      disabled={store.readOnly}
      onClick={() => store.editRow('points', row_id, { status: on ? 'rejected' : 'accepted' })}
    >
      <span aria-hidden="true">{on ? <Mark name="tick" size={16} /> : null}</span>
    </button>
  );
}
