/** Annual means of each gauge, as points that its site's curve may take. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type GaugeResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { type CurvePoint, type GaugeZero, gaugePoints } from '@stillstand/science/curve';
import { readAnnualMeans } from '@stillstand/science/tide';
import { complaints } from '../complaint.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellGauge } from '../words/curve.ts';

export interface MadeGauge {
  result: GaugeResult;
  points: CurvePoint[];
}

const meansOfGauge = step('annual means of a gauge', ({ rows }: { rows: readonly Row<'gauge_means'>[] }) =>
  readAnnualMeans(
    rows.map(({ year, level_m, sigma_m, months, flag }) => ({
      year_ce: year,
      level_m: level_m!,
      sigma_m,
      months,
      flag: flag?.trim() ?? '',
    })),
  ),
);

/** 1 sigma of a gauge's zero whose error nobody stated, m (common practice, no source). */
const ASSUMED_ZERO_SIGMA_M = 0.05;

export function gaugeMeans(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
): { made: Known<MadeGauge>[]; problems: Problem[] } {
  const { problems, complain } = complaints<Row<'gauges'>>(campaign, 'gauges', (row) => row.gauge);
  const made: Known<MadeGauge>[] = [];
  const given = campaign.rows.gauge_means.filter(({ level_m }) => level_m !== null);
  for (const [label, rows] of Map.groupBy(given, (row) => row.gauge)) {
    const gauge = campaign.rows.gauges.find((row) => row.gauge === label);
    if (gauge === undefined) continue;
    const known = rows.map((row) => run.row('gauge_means', row, `mean of ${row.year} at ${label}`));
    const { found, faults } = run.untold(meansOfGauge, { rows: known }).value;
    for (const { reason, severity, column, row, found: was, expected, fix } of faults)
      problems.push(
        problem({
          severity,
          code: `gauge-${reason.replaceAll('_', '-')}`,
          table: 'gauge_means',
          row_id: rows[row]!.row_id,
          line: campaign.lines.get(rows[row]!.row_id) ?? null,
          label: `${rows[row]!.year} at ${label}`,
          column,
          found: was,
          expected,
          fix,
        }),
      );
    if (found === null) continue;
    const zero = zeroOf(gauge, heights, complain);
    const points = gaugePoints(label, found.blocks, zero?.value ?? null);
    const result: GaugeResult = {
      row_id: gauge.row_id,
      gauge: label,
      site: gauge.site,
      zero_elevation_m: zero?.value.elevation_m ?? null,
      sd_m: found.sd_m,
      correlation: found.correlation,
      blocks: found.blocks.map((block, i) => ({ point: points[i]!.id, ...block })),
    };
    made.push(
      run.part(traceId.gaugeMeans(label), { result, points }, tellGauge(result), [
        run.row('gauges', gauge, `gauge ${label}`),
        ...known,
        ...(zero?.parts ?? []),
      ]),
    );
  }
  return { made, problems };
}

/** The zero of a gauge on the campaign datum; null where nothing relates it. */
function zeroOf(
  gauge: Row<'gauges'>,
  heights: Heights,
  complain: ReturnType<typeof complaints<Row<'gauges'>>>['complain'],
): { value: GaugeZero; parts: Traced[] } | null {
  if (gauge.zero_elevation_m === null) {
    complain(
      gauge,
      'gauge-zero-not-stated',
      'zero_elevation_m',
      '',
      `elevation of its zero on ${heights.datum.label}`,
      'Enter it with its sigma, to inform the level too. Its annual means inform the rate alone until then.',
      'note',
    );
    return null;
  }
  const to = heights.shift(gauge.datum);
  if (to === null) {
    complain(
      gauge,
      'no-datum-shift',
      'datum',
      gauge.datum ?? '',
      `a datum shift from ${gauge.datum} to ${heights.datum.label}`,
      'Add the shift between the two datums with its sigma. Its annual means inform the rate alone until then.',
      'warning',
    );
    return null;
  }
  if (gauge.sigma_m === null)
    complain(
      gauge,
      'gauge-zero-without-sigma',
      'sigma_m',
      '',
      '1 sigma of its zero',
      `Enter it. Until then ${ASSUMED_ZERO_SIGMA_M} m is assumed (common practice, no source).`,
      'warning',
    );
  const shared = [
    { group: `gauge:${gauge.gauge}`, sigma_m: gauge.sigma_m ?? ASSUMED_ZERO_SIGMA_M },
    ...to.value.shifts.map(({ name, sigma_m }) => ({ group: `datum:${name}`, sigma_m })),
  ].filter(({ sigma_m }) => sigma_m > 0);
  return { value: { elevation_m: gauge.zero_elevation_m + to.value.shift_m, shared }, parts: [to] };
}
