/** One point beside the curve: on or off, what the curve made of it, and its error, to be changed while looking. */
import type { Campaign } from '@stillstand/campaign/document';
import { type PointResult, type Results, traceId } from '@stillstand/campaign/results';
import { Button, ColumnField, Mark, printed, Quantity, signed, Traced } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import { type DocRow, useStore } from '../../store/index.ts';
import { useClaim } from '../points/use-claim.tsx';
import { Switch } from './points-table.tsx';

export function PointPanel({
  point,
  results,
  campaign,
  onClose,
}: {
  point: PointResult;
  results: Results;
  campaign: Campaign;
  onClose: () => void;
}) {
  const row = useStore()
    .rows('points')
    .find((each) => each.row_id === point.row_id);
  if (row === undefined) return null;
  return <Panel key={point.row_id} {...{ row, point, results, campaign, onClose }} />;
}

function Panel({
  row,
  point,
  results,
  campaign,
  onClose,
}: {
  row: DocRow;
  point: PointResult;
  results: Results;
  campaign: Campaign;
  onClose: () => void;
}) {
  const store = useStore();
  const navigate = useNavigate();
  const { claim, budget } = useClaim(row, point, results, campaign);
  const found = results.curve?.points.find((each) => each.id === point.point);
  const isFar = found !== undefined && Math.abs(found.age_shift_sd) > 1;
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
      {row.cells['status']?.trim() === 'rejected' ? (
        <ColumnField
          table="points"
          column="reason"
          name={(row.cells['reason'] ?? '') === '' ? 'Reason: say why it is off' : 'Reason'}
          value={row.cells['reason'] ?? ''}
          disabled={store.readOnly}
          onCommit={(reason) => store.editRow('points', row.row_id, { reason })}
        />
      ) : null}
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
                <dt>Left over by the curve</dt>
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
            {isFar ? (
              <p className="far">
                <Mark name="close" size={18} /> The curve moved its age by {signed(found.age_shift_sd, 1)} sd.
                Look at the sample again before trusting either.
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
