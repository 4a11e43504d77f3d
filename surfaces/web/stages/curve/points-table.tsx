/** Every point as the curve has it: used or not, how far its age was moved, its residual, what the others have of it. */
import { curveOf, type Results, sitesOfCurve, traceId } from '@stillstand/campaign/results';
import { disagreementRule, probability } from '@stillstand/output/words';
import { type CurveResult, disagreeing, probabilityAmongOthers } from '@stillstand/science/curve';
import { memo, useState } from 'react';
import { SmallMark } from '../../claim/index.ts';
import { Button, counted, Mark, printed, signed, Traced } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import type { Influences } from './sensitivity.tsx';
import { Unsettled } from './unsettled.tsx';
import './points-table.css';

/** A longer table leaves points of other sites folded away. */
const LONG = 40;

/** Drawn again only when the points or their order change. */
export const PointsTable = memo(function PointsTable({
  results,
  influences,
  current,
  isFinal,
  onPoint,
}: {
  results: Results;
  influences: Influences;
  current: string | null;
  isFinal: boolean;
  onPoint: (label: string) => void;
}) {
  const curve = curveOf(results);
  const curve_sites = sitesOfCurve(results);
  const inCurve = new Map(curve?.points.map((point) => [point.id, point]));
  const odd = new Set(curve === null ? [] : disagreeing(curve).map(({ id }) => id));
  const growth = new Map(influences.map((point) => [point.id, point.growth]));
  const points = [...results.points].sort(
    (a, b) =>
      (growth.get(b.point) ?? -1) - (growth.get(a.point) ?? -1) || b.age.median_cal_bp - a.age.median_cal_bp,
  );
  const isElsewhere = (point: Results['points'][number]): boolean =>
    curve !== null && point.status === 'accepted' && !curve_sites.includes(point.site);
  const [isUnfolded, setUnfolded] = useState(false);
  const elsewhere = points.filter(isElsewhere).length;
  const canFold = points.length > LONG && elsewhere > 0;
  const listed =
    canFold && !isUnfolded
      ? points.filter((point) => !isElsewhere(point) || point.point === current)
      : points;
  const moved = [...inCurve.values()].filter((point) => Math.abs(point.age_shift_sd) > 1).length;
  return (
    <section className="points-table" aria-labelledby="points-in-curve">
      <h2 id="points-in-curve">
        Points in the curve {curve === null ? null : <Unsettled curve={curve} isFinal={isFinal} />}
      </h2>
      <p className="quiet">
        The most influential first.
        {moved === 0
          ? ''
          : ` ${moved === 1 ? 'One age was' : `${moved} ages were`} moved by more than 1 sd: check the sample.`}
        {curve === null || !isFinal
          ? ''
          : ` p is the probability of a height as improbable as the one found, from all other points and the point’s own date; of a limit, that the sea keeps to its side. Marked is ${disagreementRule(curve)}. Outlier: the probability that its date (d) or its height (h) is wrong by more than its error says, whichever is larger.`}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="scroll" tabIndex={0} aria-label="Table of points">
        <table>
          <thead>
            <tr>
              <th scope="col">use</th>
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
              <th scope="col" className="n">
                p
              </th>
              <th scope="col" className="n">
                outlier
              </th>
            </tr>
          </thead>
          <tbody>
            {listed.map((point) => {
              const found = inCurve.get(point.point);
              const isFar = found !== undefined && Math.abs(found.age_shift_sd) > 1;
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
                  <td className="n">
                    {isElsewhere(point) ? (
                      <span className="quiet">site {point.site ?? 'without name'}</span>
                    ) : null}
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
                  <td className={odd.has(point.point) ? 'n far' : 'n'}>
                    {odd.has(point.point) ? <Mark name="close" size={14} label="disagrees" /> : null}{' '}
                    {found === undefined || found.predictive_p === null
                      ? ''
                      : probability(probabilityAmongOthers(found))}
                  </td>
                  <OutlierCell found={found} />
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      {canFold ? (
        <Button aria-expanded={isUnfolded} onClick={() => setUnfolded(!isUnfolded)}>
          {isUnfolded ? 'Hide' : 'Show'} {counted(elsewhere, 'point')} of other sites
        </Button>
      ) : null}
    </section>
  );
});

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

/** The larger of the two probabilities, where either is worth a look. */
function OutlierCell({ found }: { found: CurveResult['points'][number] | undefined }) {
  if (found === undefined) return <td />;
  const isDate = found.age_outlier_p >= found.height_outlier_p;
  const p = Math.max(found.age_outlier_p, found.height_outlier_p);
  if (p < 0.1) return <td className="n" />;
  return (
    <td className={p > 0.5 ? 'n far' : 'n'}>
      {p > 0.5 ? <Mark name="close" size={14} label="probably an outlier" /> : null} {printed(p, 2)}{' '}
      {isDate ? 'd' : 'h'}
    </td>
  );
}
