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
  // Asked at every edit, and a record may have ten thousands of readings.
  const isRecordAsked = rows.tide_reductions.some(({ method }) => method === 'means');
  const records = isRecordAsked ? gaugeRecords(campaign) : [];
  const zeroOf = onceEach((gauge: Row<'gauges'>) =>
    gaugeZero(gauge, heights, zeros.complain, 'No tide levels are computed from it until then.'),
  );
  const bySite = new Map<string, ComputedLevel[]>();
  for (const row of rows.tide_reductions) {
    const gauge = rows.gauges.find(({ gauge: label }) => label === row.gauge);
    if (gauge === undefined) continue;
    const of = { run, campaign, heights, row, gauge, complain: asked.complain };
    const zero = (): GaugeZero | null => zeroOf(gauge);
    const record = records.find(({ gauge: label }) => label === row.gauge);
    const made =
      row.method === 'means'
        ? fromReadings(of, zero, record)
        : fromConstants(of, zero, stated(row.site, 'MSL'));
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

/** Two rows may ask for one gauge: what is wrong with it is said once. */
function onceEach<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    if (!made.has(key)) made.set(key, make(key));
    return made.get(key) as V;
  };
}
