/** Annual means of each gauge, as points that its site's curve may take. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type GaugeResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { type CurvePoint, type GaugeZero, gaugePoints } from '@stillstand/science/curve';
import { readAnnualMeans } from '@stillstand/science/tide';
import { type Complain, complaints } from '../complaint.ts';
import { gaugeZero } from '../heights/gauge-zero.ts';
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

/** With its errors by what they are shared with; null where nothing relates it. */
function zeroOf(
  gauge: Row<'gauges'>,
  heights: Heights,
  complain: Complain<Row<'gauges'>>,
): { value: GaugeZero; parts: Traced[] } | null {
  const zero = gaugeZero(gauge, heights, complain, 'Its annual means inform the rate alone until then.');
  if (zero === null) return null;
  const { elevation_m, sigma_m, to } = zero;
  const shared = [
    { group: `gauge:${gauge.gauge}`, sigma_m },
    ...to.value.shifts.map((shift) => ({ group: `datum:${shift.name}`, sigma_m: shift.sigma_m })),
  ].filter((part) => part.sigma_m > 0);
  return { value: { elevation_m, shared }, parts: [to] };
}
