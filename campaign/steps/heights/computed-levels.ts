/** Tide levels of a site that are computed from a gauge, as the table `tide_reductions` asks for them. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import type { SiteTideLevel } from '@stillstand/science/points';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { gaugeRecords } from './gauge-record.ts';
import { type GaugeZero, gaugeZero } from './gauge-zero.ts';
import type { Heights } from './heights.ts';
import type { ComputedLevel, Reduction } from './levels-asked.ts';
import { fromConstants } from './levels-of-constants.ts';
import { fromReadings } from './levels-of-readings.ts';

/**
 * Levels of every site on the campaign datum, by its label; of two rows that give a level the first counts. `stated`: the
 * level of that name as entered for the site, on the campaign datum.
 */
export function computedLevels(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  stated: (site: string, level: string) => Known<SiteTideLevel> | null,
) {
  const { rows } = campaign;
  const asked = complaints<Reduction>(campaign, 'tide_reductions', (row) => `${row.site} from ${row.gauge}`);
  const zeros = complaints<Row<'gauges'>>(campaign, 'gauges', (row) => row.gauge);
  const records = rows.tide_reductions.length === 0 ? [] : gaugeRecords(campaign);
  const bySite = new Map<string, ComputedLevel[]>();
  for (const row of rows.tide_reductions) {
    const gauge = rows.gauges.find(({ gauge: label }) => label === row.gauge);
    if (gauge === undefined) continue;
    const of = { run, campaign, heights, row, gauge, complain: asked.complain };
    const zeroOf = (): GaugeZero | null =>
      gaugeZero(gauge, heights, zeros.complain, `No tide levels of ${row.site} are computed until then.`);
    const record = records.find(({ gauge: label }) => label === row.gauge);
    const made =
      row.method === 'means'
        ? fromReadings(of, zeroOf, record)
        : fromConstants(of, zeroOf, stated(row.site, 'MSL'));
    const known = bySite.get(row.site) ?? [];
    bySite.set(row.site, [
      ...known,
      ...made.filter(({ level }) => known.every((before) => before.level !== level)),
    ]);
  }
  return {
    of: (site: string): readonly ComputedLevel[] => bySite.get(site) ?? [],
    problems: [...asked.problems, ...zeros.problems],
  };
}
