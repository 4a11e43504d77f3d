/** What is set up once for a campaign, or read by the curve alone: kept out of the evening's plan, and reached from it. */
import { Choices } from '../choices.tsx';
import { RowsTable } from '../rows-table.tsx';

/** Tables that are shown here: an address that names one opens the fold. */
export const OTHER_TABLES: readonly string[] = [
  'settings',
  'sites',
  'datums',
  'datum_shifts',
  'gauge_readings',
  'gauge_means',
  'tide_ranges',
  'calibration_curves',
  'age_densities',
];

export function OtherTables({ isOpen }: { isOpen: boolean }) {
  return (
    <details className="plan-tables" open={isOpen}>
      <summary>The campaign and its other tables</summary>
      <div className="other-tables">
        <Choices />
        <RowsTable
          table="sites"
          caption="Sites"
          columns={['site', 'name', 'latitude_deg', 'longitude_deg', 'position_as_written']}
          add="Add a site"
        />
        <RowsTable
          table="datums"
          caption="Zeros of heights"
          columns={['datum', 'kind', 'epoch_from', 'epoch_to']}
          add="Add a datum"
        />
        <RowsTable
          table="datum_shifts"
          caption="Steps between zeros"
          columns={['from', 'to', 'shift_m', 'sigma_m', 'source']}
          add="Add a step"
        />
        <RowsTable
          table="gauge_readings"
          caption="Readings of gauges"
          columns={['time', 'gauge', 'height_m', 'flag']}
          add="Write a gauge reading"
          foot={<p className="quiet small">Readings: amended by a later entry, never changed.</p>}
        />
        <RowsTable
          table="gauge_means"
          caption="Annual means of gauges"
          columns={['year', 'gauge', 'level_m', 'sigma_m', 'months', 'flag', 'source']}
          add="Add an annual mean"
          fold={10}
          foot={
            <p className="quiet small">
              They join the curve of the gauge’s site. Metres above the zero of the gauge; without an
              elevation of that zero they inform the rate alone.
            </p>
          }
        />
        <RowsTable
          table="tide_ranges"
          caption="Tidal range through time"
          columns={['age_cal_bp', 'factor', 'factor_sigma', 'site', 'source']}
          add="Add a tidal range"
          foot={
            <p className="quiet small">
              Tidal range then ÷ today, by a palaeotidal model. Straight between rows; one error for all rows.
            </p>
          }
        />
        <RowsTable
          table="calibration_curves"
          caption="Calibration curves of your own"
          columns={['age_cal_bp', 'curve', 'c14_age', 'c14_error', 'reservoir', 'source']}
          add="Add a row"
          fold={10}
          foot={
            <p className="quiet small">
              A date names one by its name, as it names a published curve. Straight between rows; import a
              whole curve with Import a table.
            </p>
          }
        />
        <RowsTable
          table="age_densities"
          caption="Ages known as a curve of probability"
          columns={['age_cal_bp', 'density', 'weight', 'source']}
          add="Add a row"
          fold={10}
          foot={
            <p className="quiet small">
              The age of a tephra, a pollen horizon or an event. A date names it as its age density. Straight
              between rows, nothing beyond them; weights on any scale. Import a whole curve with Import a
              table.
            </p>
          }
        />
      </div>
    </details>
  );
}
