/** One point beside the curve: used or not, what the curve and the other points make of it, and its error, to be changed while looking. */
import type { Campaign } from '@stillstand/campaign/document';
import { curveOf, type PointResult, type Results, traceId } from '@stillstand/campaign/results';
import { probability } from '@stillstand/output/words';
import { disagreeing, probabilityAmongOthers } from '@stillstand/science/curve';
import { RejectionReason, useClaim } from '../../claim/index.ts';
import { Button, Mark, printed, Quantity, signed, Traced } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import { type DocRow, useStore } from '../../store/index.ts';
import { Switch } from './points-table.tsx';
import { Unsettled } from './unsettled.tsx';
import './point-panel.css';

export function PointPanel({
  point,
  results,
  campaign,
  isFinal,
  onClose,
}: {
  point: PointResult;
  results: Results;
  campaign: Campaign;
  isFinal: boolean;
  onClose: () => void;
}) {
  const row = useStore()
    .rows('points')
    .find((each) => each.row_id === point.row_id);
  if (row === undefined) return null;
  return <Panel key={point.row_id} {...{ row, point, results, campaign, isFinal, onClose }} />;
}

function Panel({
  row,
  point,
  results,
  campaign,
  isFinal,
  onClose,
}: {
  row: DocRow;
  point: PointResult;
  results: Results;
  campaign: Campaign;
  isFinal: boolean;
  onClose: () => void;
}) {
  const navigate = useNavigate();
  const { claim, budget } = useClaim(row, point, results, campaign);
  const found = curveOf(results)?.points.find((each) => each.id === point.point);
  const isFar = found !== undefined && Math.abs(found.age_shift_sd) > 1;
  const curve = curveOf(results);
  const isOdd = curve !== null && disagreeing(curve).some(({ id }) => id === point.point);
  const relation = { index: 'Sea level', terrestrial: 'The sea was below', marine: 'The sea was above' }[
    point.kind
  ];
  return (
    <section className="panel point-panel" aria-labelledby="point-shown">
      <header>
        <Switch label={point.point} row_id={point.row_id} isOn={point.status === 'accepted'} />
        <h2 id="point-shown">{point.point}</h2>
        <Button kind="bare" mark="cross" aria-label="Close the point" onClick={onClose} />
      </header>
      {curve === null || found === undefined || curve.diagnostics.converged ? null : (
        <p>
          <Unsettled curve={curve} isFinal={isFinal} />
        </p>
      )}
      {row.cells['status']?.trim() === 'rejected' ? <RejectionReason row={row} /> : null}
      <dl>
        <div>
          <dt>{relation}</dt>
          <dd>
            <Quantity
              value={claim.ok ? claim.rsl_m : point.rsl_m}
              sigma={claim.ok ? claim.sigma_m : point.rsl_sigma_m}
              unit="m"
              sign
              id={traceId.point(point.point).rsl}
            />
          </dd>
        </div>
        {found === undefined ? null : (
          <>
            {point.kind === 'index' ? (
              <div>
                <dt>Residual</dt>
                <dd>
                  <Traced id={traceId.point(point.point).residual}>{signed(found.residual_m, 2)} m</Traced>
                </dd>
              </div>
            ) : null}
            <div>
              <dt>Age, as dated</dt>
              <dd>
                <Traced id={point.lab_code === null ? null : traceId.date(point.lab_code)}>
                  {printed(point.age.median_cal_bp, 0)} cal BP{' '}
                  <span className="pm">
                    ({printed(point.age.older95_cal_bp, 0)} to {printed(point.age.younger95_cal_bp, 0)})
                  </span>
                </Traced>
              </dd>
            </div>
            <div>
              <dt>Age, in the curve</dt>
              <dd>
                <Traced id={traceId.point(point.point).ageInCurve}>
                  {printed(found.age_cal_bp.median, 0)} cal BP{' '}
                  <span className="pm">
                    ({printed(found.age_cal_bp.upper95, 0)} to {printed(found.age_cal_bp.lower95, 0)})
                  </span>
                </Traced>
              </dd>
            </div>
            <div>
              <dt>Age moved by the curve</dt>
              <dd>{signed(found.age_shift_sd, 1)} sd</dd>
            </div>
            {curve?.settings.outliers == null ? null : (
              <div>
                <dt>Outlier: date, height</dt>
                <dd>
                  {probability(found.age_outlier_p)}, {probability(found.height_outlier_p)}
                </dd>
              </div>
            )}
            {found.others_level_m === null ? null : (
              <>
                <div>
                  <dt>Level by the other points</dt>
                  <dd>
                    {signed(found.others_level_m.mean, 2)} m{' '}
                    <span className="pm">±{printed(2 * found.others_level_m.sd, 2)}</span>
                  </dd>
                </div>
                <div>
                  <dt>p among the other points</dt>
                  <dd>{probability(probabilityAmongOthers(found))}</dd>
                </div>
              </>
            )}
            {isOdd ? (
              <p className="far">
                <Mark name="close" size={18} /> The other points contradict this one. Check its date, sample
                and meaning: reject it, or keep it.
              </p>
            ) : null}
            {isFar ? (
              <p className="far">
                <Mark name="close" size={18} /> The curve moved its age by more than 1 sd. Check the sample
                before trusting either.
              </p>
            ) : null}
          </>
        )}
      </dl>
      {budget}
      <Button mark="on" onClick={() => navigate('Points', { point: point.point })}>
        Open in Points
      </Button>
    </section>
  );
}
