/** Tidal constants found in the readings of a gauge, with their errors and what is not resolved; written down on wish. */

import { gaugeRecords, referencesFor } from '@stillstand/campaign/steps';
import type { Analysis } from '@stillstand/science/tide';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, Dialog, decimalsFor, Field, Plate, printed, Table } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { useTideSum } from './use-tide-sum.ts';

/** Springs and neaps twice: less tells little of any other day. Common practice, no source. */
const USUAL_DAYS = 29;

export function AnalysisEntry({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const { campaign } = useComputation();
  const records = useMemo(() => (campaign === null ? [] : gaugeRecords(campaign)), [campaign]);
  const [named, setNamed] = useState<string | null>(null);
  const record = records.find(({ gauge }) => gauge === named) ?? records[0] ?? null;
  const [referenceNamed, setReference] = useState('');
  const references = useMemo(
    () => (campaign === null ? [] : referencesFor(campaign, record?.gauge ?? '')),
    [campaign, record?.gauge],
  );
  const reference = references.find(({ gauge }) => gauge === referenceNamed) ?? null;
  const asked = useMemo(
    () =>
      record === null
        ? null
        : {
            time_ms: record.time_ms,
            height_m: record.height_m,
            reference: reference?.constants ?? [],
          },
    [record, reference],
  );
  const answer = useTideSum(asked);
  const analysis = answer ?? null;
  const isThere =
    record !== null && store.rows('constituents').some((row) => row.cells['gauge']?.trim() === record.gauge);
  const day = (time_ms: number): string => new Date(time_ms).toISOString().slice(0, 10);
  const write = (of: Analysis): void => {
    const { gauge, time_ms } = record!;
    const source = `analysis of ${of.readings} readings, ${day(time_ms[0]!)} to ${day(time_ms.at(-1)!)}`;
    store.together(() => {
      for (const {
        constituent,
        amplitude_m,
        phase_deg,
        amplitude_sigma_m,
        phase_sigma_deg,
        unresolved_from,
      } of of.constants) {
        store.addRow('constituents', {
          gauge,
          constituent,
          amplitude_m: amplitude_m.toFixed(4),
          phase_deg: phase_deg.toFixed(1),
          amplitude_sigma_m: roundedUp(amplitude_sigma_m, 4),
          phase_sigma_deg: roundedUp(phase_sigma_deg, 1),
          source,
          ...(unresolved_from === null
            ? {}
            : {
                note: `not resolved from ${unresolved_from}; expected by ${reference === null ? 'the equilibrium tide' : `ratios of ${reference.gauge}`}`,
              }),
        });
      }
    });
    onClose();
  };
  return (
    <Dialog
      title="Find constants in the readings"
      onClose={onClose}
      foot={
        <>
          {isThere ? (
            <p className="says-why">{record.gauge} has constants already: delete them first.</p>
          ) : null}
          <Button
            kind="main"
            disabled={analysis === null || analysis.constants.length === 0 || isThere || store.readOnly}
            onClick={() => analysis !== null && write(analysis)}
          >
            Write them down
          </Button>
        </>
      }
    >
      <div className="sums">
        {records.length === 0 ? (
          <p>No gauge has readings with their times yet. Those with a flag are not used.</p>
        ) : (
          <Field name="Gauge" help={{ about: 'Readings without a flag, with date and time, are used' }}>
            {(input) => (
              <select {...input} value={record?.gauge} onChange={(event) => setNamed(event.target.value)}>
                {records.map(({ gauge, time_ms }) => (
                  <option key={gauge} value={gauge}>
                    {gauge} ({time_ms.length} readings)
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        {record === null || references.length === 0 ? null : (
          <Field
            name="Expected ratios"
            help={{
              about:
                'What a short record cannot separate is expected at a ratio to its neighbour: that of the equilibrium tide, or that of a gauge nearby with a long record',
            }}
          >
            {(input) => (
              <select
                {...input}
                value={referenceNamed}
                onChange={(event) => setReference(event.target.value)}
              >
                <option value="">equilibrium tide</option>
                {references.map(({ gauge }) => (
                  <option key={gauge} value={gauge}>
                    constants of {gauge}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        {record === null ? null : answer === null ? (
          <p role="status">Computing…</p>
        ) : analysis === null ? (
          <p role="status">Too few readings, or too short a time, for any constant.</p>
        ) : (
          <Found analysis={analysis} />
        )}
      </div>
    </Dialog>
  );
}

/** A sigma is never written smaller than it is. */
const roundedUp = (value: number, decimals: number): string =>
  (Math.ceil(value * 10 ** decimals - 1e-9) / 10 ** decimals).toFixed(decimals);

function Found({ analysis }: { analysis: Analysis }) {
  const { constants, unresolved, too_fast, duration_days, readings, residual_sd_m, mean_m, mean_sigma_m } =
    analysis;
  const places = decimalsFor(2 * mean_sigma_m, 2, 3);
  const sum = (): string =>
    unresolved
      .slice(0, 6)
      .map(
        ({ constituent, from, needs_days }) =>
          `${constituent} from ${from} (${printed(Math.ceil(needs_days), 0)} d)`,
      )
      .join(', ');
  return (
    <>
      <p>
        {printed(readings, 0)} readings over {printed(duration_days, 1)} days. Mean level {printed(mean_m, 2)}{' '}
        ±{printed(2 * mean_sigma_m, places)} m above the gauge’s zero; residual, observed less fitted, ±
        {printed(2 * residual_sd_m, 2)} m (2σ).
      </p>
      {duration_days < USUAL_DAYS ? (
        <Plate state="caution" word="A short record">
          <p>
            {printed(duration_days, 1)} days show today’s tide, not springs and neaps: do not leave by it on
            another day. Read for {USUAL_DAYS} days and more.
          </p>
        </Plate>
      ) : null}
      <Table
        caption={
          <>
            Constants <small>± is 2σ</small>
          </>
        }
        columns={[
          { name: 'constituent' },
          { name: 'amplitude', unit: 'm', number: true },
          { name: 'phase lag', unit: 'deg', number: true },
          { name: 'not resolved from' },
        ]}
      >
        {constants.map(
          ({ constituent, amplitude_m, amplitude_sigma_m, phase_deg, phase_sigma_deg, unresolved_from }) => {
            const decimals = decimalsFor(2 * amplitude_sigma_m, 2, 4);
            return (
              <tr key={constituent}>
                <th scope="row">{constituent}</th>
                <td className="number">
                  {printed(amplitude_m, decimals)} ±{printed(2 * amplitude_sigma_m, decimals)}
                </td>
                <td className="number">
                  {phase_sigma_deg > 45 ? (
                    'not known'
                  ) : (
                    <>
                      {printed(phase_deg, 0)} ±{printed(2 * phase_sigma_deg, 0)}
                    </>
                  )}
                </td>
                <td>{unresolved_from ?? ''}</td>
              </tr>
            );
          },
        )}
      </Table>
      {unresolved.length === 0 ? null : (
        <p className="quiet small">
          Not resolved by so short a record, and the days needed: {sum()}
          {unresolved.length > 6 ? `, and ${unresolved.length - 6} more` : ''}. What is expected settles them:
          a ratio to a neighbour, or 0 with a usual size. How far that may be off is in the ± of all they
          cannot be separated from.
        </p>
      )}
      {too_fast.length === 0 ? null : (
        <p className="quiet small">Left out, the readings are too far apart: {too_fast.join(', ')}.</p>
      )}
    </>
  );
}
