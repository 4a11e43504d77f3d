/** The tidal range at the time of each point, from the table of the user: by site, with what is wrong with it. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import {
  meanTideLevel,
  type RangeThen,
  rangeThen,
  type SiteTideLevel,
  type TideThen,
  tideRangeTable,
} from '@stillstand/science/points';
import type { Dated, Dates } from '../ages/dates.ts';
import { complaints } from '../complaint.ts';
import type { CampaignDatum } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellRange } from '../words/points.ts';

export interface RangeOfPoint {
  tide_then: Known<TideThen>;
  /** What it is made of, for the trace. */
  parts: readonly Traced[];
}

export interface TideRanges {
  /** Whether there is a table for the site. */
  isFor(site: string | null): boolean;
  /** Null where today's range is used. `tide`: levels of the site on the campaign datum. */
  of(
    point: string,
    site: string | null,
    tide: readonly Known<SiteTideLevel>[],
    dated: Known<Dated>,
  ): RangeOfPoint | null;
  /** Once all points have been asked for. */
  problems(): Problem[];
}

const rangeOfDate = step(
  'tidal range of a date',
  ({ rows, date }: { rows: readonly Row<'tide_ranges'>[]; date: Dated }): RangeThen =>
    rangeThen(rows, date.result),
);

/** Rows of one site, or of all sites without rows of their own. */
interface Table {
  /** Label of the site; empty for all. */
  group: string;
  rows: Row<'tide_ranges'>[];
  /** Points older or younger than its ends. */
  beyond: { point: string; age_cal_bp: number }[];
  saidWithoutMean: boolean;
}

export function tideRanges(run: Runner, campaign: Campaign, datum: CampaignDatum, dates: Dates): TideRanges {
  const { problems, complain } = complaints<Row<'tide_ranges'>>(
    campaign,
    'tide_ranges',
    (row) => `${row.age_cal_bp} cal BP${row.site === null ? '' : ` at ${row.site}`}`,
  );
  const oldest = Math.max(0, ...[...dates.of.values()].map(({ value }) => value.result.median_cal_bp));
  const tables = new Map<string | null, Table>();
  for (const [site, given] of Map.groupBy(campaign.rows.tide_ranges, (row) => row.site)) {
    const { rows, faults } = tideRangeTable(given, oldest);
    for (const { reason, row, found, expected, fix } of faults)
      complain(
        given[row ?? 0]!,
        `tide-range-${reason.replaceAll('_', '-')}`,
        'age_cal_bp',
        found,
        expected,
        fix,
        reason === 'out_of_order' ? 'note' : 'error',
      );
    if (rows.length > 0) tables.set(site, { group: site ?? '', rows, beyond: [], saidWithoutMean: false });
  }
  const tableOf = (site: string | null): Table | undefined => tables.get(site) ?? tables.get(null);

  return {
    isFor: (site) => tableOf(site) !== undefined,
    of: (point, site, tide, dated) => {
      const table = tableOf(site);
      if (table === undefined) return null;
      const mean = meanTideLevel(
        tide.map(({ value }) => value),
        datum.kind === 'mean_sea_level',
      );
      if (mean === null) {
        if (!table.saidWithoutMean)
          complain(
            table.rows[0]!,
            'tide-range-without-mean',
            'factor',
            `no mean level of ${site ?? 'a sample without a site'} on ${datum.label}`,
            'the tide level MSL or MTL of the site',
            'Add MSL to the tide levels: a factor scales the tide about it. Today’s range is used until then.',
          );
        table.saidWithoutMean = true;
        return null;
      }
      const { median_cal_bp, sets_95 } = dated.value.result;
      const ages = table.rows.map((row) => row.age_cal_bp);
      if (median_cal_bp > ages.at(-1)! || median_cal_bp < ages[0]!)
        table.beyond.push({ point, age_cal_bp: median_cal_bp });
      const from = Math.min(...sets_95.map((s) => s.younger_cal_bp));
      const to = Math.max(...sets_95.map((s) => s.older_cal_bp));
      const known = table.rows.map((row) =>
        run.row('tide_ranges', row, `tidal range at ${row.age_cal_bp} cal BP`),
      );
      const first = Math.max(
        0,
        ages.findLastIndex((age) => age <= from),
      );
      const last = ages.findIndex((age) => age >= to);
      const used = known.slice(first, last === -1 ? undefined : last + 1);
      const range = run.do(
        rangeOfDate,
        traceId.point(point).tidalRange,
        { rows: known, date: dated },
        (value) => tellRange(point, value),
        () => [...used, dated],
      );
      const sources = [...new Set(used.flatMap(({ value }) => value.source ?? []))].join('; ');
      return {
        tide_then: run.plain({
          range: range.value,
          mean: { elevation_m: mean.elevation_m, sigma_m: mean.sigma_m },
          group: table.group,
          source: sources === '' ? 'stated with the tidal ranges' : sources,
        }),
        parts: [range, ...tide.filter(({ value }) => value.level === mean.level)],
      };
    },
    problems: () => {
      for (const { rows, beyond } of tables.values()) {
        if (beyond.length === 0) continue;
        const ages = `${rows[0]!.age_cal_bp} to ${rows.at(-1)!.age_cal_bp} cal BP`;
        complain(
          rows[0]!,
          'tide-range-beyond-table',
          'age_cal_bp',
          beyond.map(({ point, age_cal_bp }) => `${point} at ${Math.round(age_cal_bp)}`).join(', '),
          `points within the table, ${ages}`,
          'Add rows that reach them. The factor of the nearest end is used until then, with its sigma.',
          'warning',
        );
      }
      return problems;
    },
  };
}
