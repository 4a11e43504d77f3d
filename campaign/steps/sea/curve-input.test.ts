/** Which points a curve is of, and which ages it is reported at. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { sitesOfCurve } from '@stillstand/campaign/results';
import { readSites } from '@stillstand/campaign/settings';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import { chooseCurves, type SiteInCurve } from './curve-sites.ts';

interface Claim {
  site: string;
  age: number;
  kind?: string;
  status?: string;
}

/** Samples at the surface of their sites, each dated to a year or so. */
function computed(claims: readonly Claim[], settings: Cells = {}, curveOfSite: Cells = {}) {
  const level = (site: string, name: string, elevation_m: string): Cells => ({
    site,
    level: name,
    datum: 'MSL',
    elevation_m,
    sigma_m: '0.05',
  });
  const sites = ['A', 'B', 'C'];
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: sites.map((site) => ({ site, curve: curveOfSite[site] ?? '' })),
    tide_levels: sites.flatMap((site) => [level(site, 'MHW', '0.8'), level(site, 'HAT', '1.4')]),
    settings: Object.entries(settings).map(([name, value]) => ({ name, value })),
    samples: claims.map(({ site }, k) => ({
      sample: `S${k}`,
      basis: 'elevation',
      site,
      elevation_m: '-1',
      elevation_sigma_m: '0.1',
      elevation_datum: 'MSL',
    })),
    determinations: claims.map(({ age }, k) => ({
      lab_code: `INV-${k}`,
      sample: `S${k}`,
      method: 'luminescence',
      value: String(age),
      error: '10',
      reference_year: '1950',
    })),
    points: claims.map(({ kind = 'index', status = 'accepted' }, k) => ({
      point: `P${k}`,
      sample: `S${k}`,
      kind,
      lower: 'MHW',
      upper: 'HAT',
      status,
      reason: status === 'rejected' ? 'for the test' : '',
    })),
  };
  let document = newDocument('sites');
  for (const [table, rows] of Object.entries(tables))
    document = withRows(
      document,
      table,
      rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
    );
  const { campaign, problems } = parseCampaign(document);
  const { results, curveInput } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return {
    results,
    ids: curveInput?.points.map(({ id }) => id) ?? [],
    settings: curveInput?.settings ?? null,
    of: (code: string) => results.problems.filter((p) => p.code === code),
  };
}

const at = (site: string, ...ages: number[]): Claim[] => ages.map((age) => ({ site, age }));

test('points of one site are a curve, and nothing is said', () => {
  const { results, ids, of } = computed(at('B', 1000, 2000, 3000));
  assert.deepEqual([ids, sitesOfCurve(results)], [['P0', 'P1', 'P2'], ['B']]);
  assert.deepEqual(of('points-of-other-sites'), []);
  const nameless = computed([{ site: '', age: 1000 }]);
  // Without a site there are no tide levels, so an index point cannot be made.
  assert.deepEqual([nameless.ids, sitesOfCurve(nameless.results)], [[], []]);
});

test('two coasts are not one sea: each has its curve, that of the report is of the one with the most index points', () => {
  const claims = [
    ...at('A', 1000, 2000),
    ...at('B', 1500, 2500, 3500),
    ...[4000, 5000].map((age): Claim => ({ site: 'A', age, kind: 'terrestrial' })),
  ];
  const { results, ids, of } = computed(claims);
  assert.deepEqual([ids, sitesOfCurve(results)], [['P2', 'P3', 'P4'], ['B']]);
  assert.deepEqual(
    results.curves.map(({ id, role, sites }) => [id, role, sites]),
    [
      ['main', 'headline', ['B']],
      ['A', 'of its own', ['A']],
    ],
  );
  assert.deepEqual(of('points-of-other-sites'), []);
  // They are kept, and say of which site they are.
  assert.deepEqual(
    results.points.map(({ site }) => site),
    ['A', 'A', 'B', 'B', 'B', 'A', 'A'],
  );
});

test('a tie goes to the first site of the table; rejected points do not count', () => {
  const tie = [...at('C', 1000, 2000), ...at('B', 1500, 2500)];
  assert.deepEqual(sitesOfCurve(computed(tie).results), ['B']);
  const rejected: Claim[] = [...tie, { site: 'C', age: 3000, status: 'rejected' }];
  assert.deepEqual(sitesOfCurve(computed(rejected).results), ['B']);
});

test('the setting says which sites share a curve', () => {
  const claims = [...at('A', 1000), ...at('B', 1500, 2500), ...at('C', 3000)];
  const [said] = computed(claims).of('points-of-other-sites');
  assert.deepEqual([said?.severity, said?.found], ['warning', 'points of 3 sites: A 1, B 2, C 1']);
  assert.match(
    said!.fix,
    /^Name a curve for the site, .* “sites of the curve” .*\. Until then points of A, C \(2\) are in no curve\.$/,
  );
  const asked = (curve_sites: string) => computed(claims, { curve_sites });
  assert.deepEqual(sitesOfCurve(asked('all').results), ['A', 'B', 'C']);
  assert.deepEqual(asked('all').of('points-of-other-sites'), []);
  assert.deepEqual(sitesOfCurve(asked('C; A').results), ['A', 'C']);
  assert.deepEqual(
    asked('C; A').results.curves.map(({ id, sites }) => [id, sites]),
    [
      ['main', ['A', 'C']],
      ['B', ['B']],
    ],
  );
  assert.deepEqual(
    asked('B')
      .of('points-of-other-sites')
      .map((p) => p.severity),
    ['note'],
  );
  const wrong = asked('D');
  assert.deepEqual(sitesOfCurve(wrong.results), ['B']);
  assert.deepEqual(
    wrong.of('unknown-site').map((p) => [p.severity, p.found]),
    [['error', 'D']],
  );
  assert.deepEqual(
    wrong.of('points-of-other-sites').map((p) => p.severity),
    ['warning'],
  );
});

test('points without a site are one site without a name, last in a tie', () => {
  const points = [
    { site: null, kind: 'index' as const },
    { site: 'Z', kind: 'index' as const },
  ];
  const main = (...[of, asked]: Parameters<typeof chooseCurves>) =>
    chooseCurves(of, asked, []).curves[0]!.sites;
  assert.deepEqual(main(points, null, []), ['Z']);
  assert.deepEqual(main([...points, points[0]!], null, []), [null]);
  assert.deepEqual(main(points, 'all', []), ['Z', null]);
  assert.deepEqual([readSites(' '), readSites('All'), readSites('a ; b;')], [null, 'all', ['a', 'b']]);
});

test('sites share a curve where the table names one, and may have a part in that of the report besides', () => {
  const points = ['A', 'A', 'A', 'B', 'C', 'C', 'D'].map((site) => ({ site, kind: 'index' as const }));
  const site = (name: string, curve: string | null = null): SiteInCurve => ({ site: name, curve });
  const chosen = (asked: Parameters<typeof chooseCurves>[1], ...sites: SiteInCurve[]) => {
    const { curves, without } = chooseCurves(points, asked, sites);
    return [curves.map(({ id, sites: of }) => `${id}: ${of.join(' ')}`).join('; '), without.join(' ')];
  };
  const plain = ['A', 'B', 'C', 'D'].map((name) => site(name));
  assert.deepEqual(chosen(null, ...plain), ['main: A; C: C', 'B D']);
  const [a, b, c, d] = plain;
  const west = [site('A'), site('B', 'west'), site('C', 'west'), site('D', 'far')];
  // Three index points each: the first of the table. A named curve stands even on one point.
  assert.deepEqual(chosen(null, ...west), ['main: A; west: B C; far: D', '']);
  assert.deepEqual(chosen(['B', 'C'], ...west), ['main: B C; A: A; far: D', '']);
  // Named ones are shown for themselves beside a curve of all; the others are in it already.
  assert.deepEqual(chosen('all', ...west), ['main: A B C D; west: B C; far: D', '']);
  assert.deepEqual(chosen('all', ...plain), ['main: A B C D', '']);
  // To write another site's label is to join it.
  assert.deepEqual(chosen(null, a!, site('B', 'A'), c!, d!), ['main: A B; C: C', 'D']);
  // No two have one name, and none that of the report's.
  assert.deepEqual(chosen(null, a!, site('B', 'main'), site('C', 'main'), d!), [
    'main: A; main (2): B C',
    'D',
  ]);
  assert.deepEqual(chosen(null, a!, b!, site('C', 'no site'), d!), ['main: A; no site: C', 'B D']);
});

test('a rejected point, one of another site or one older than asked stretches neither ages nor intervals', () => {
  const oldest = (claims: Claim[], settings: Cells = {}): [number, number, number | undefined] => {
    const s = computed(claims, settings).settings!;
    return [Math.min(...s.ages_cal_bp), Math.max(...s.ages_cal_bp), s.intervals[0]?.older_cal_bp];
  };
  const own = at('A', 1000, 2000, 3000);
  const plain = oldest(own);
  assert.deepEqual(plain, [0, 3100, 3000]);
  assert.deepEqual(oldest([...own, { site: 'A', age: 9000, status: 'rejected' }]), plain);
  assert.deepEqual(oldest([...own, ...at('B', 9000)]), plain);
  const far = [...own, ...at('A', 9000)];
  assert.deepEqual(oldest(far), [0, 9100, 9000]);
  assert.deepEqual(oldest(far, { curve_oldest_cal_bp: '4000' }), [0, 4000, 4000]);
  assert.deepEqual(
    oldest(far, { curve_oldest_cal_bp: '3500', curve_youngest_cal_bp: '500' }),
    [500, 3500, 3000],
  );
  assert.deepEqual(
    computed(far, { curve_youngest_cal_bp: '1500', curve_oldest_cal_bp: '3500' }).settings!.intervals,
    [{ older_cal_bp: 3000, younger_cal_bp: 2000 }],
  );
});

test('of a hole the points below each are known to be older, where depths do not overlap and the setting is on', () => {
  const tops = [1, 2, 2.01, 3];
  const below = (settings: Cells = {}): unknown => {
    const level = (name: string, elevation_m: string): Cells => ({
      site: 'A',
      level: name,
      datum: 'MSL',
      elevation_m,
      sigma_m: '0.05',
    });
    const tables: Record<string, Cells[]> = {
      datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
      sites: [{ site: 'A' }],
      tide_levels: [level('MHW', '0.8'), level('HAT', '1.4')],
      settings: Object.entries(settings).map(([name, value]) => ({ name, value })),
      holes: [
        { hole: 'H', site: 'A', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL' },
      ],
      samples: tops.map((top, k) => ({
        sample: `S${k}`,
        hole: 'H',
        basis: 'in_situ',
        top: `${top} m`,
        bottom: `${top + 0.02} m`,
      })),
      determinations: tops.map((top, k) => ({
        lab_code: `INV-${k}`,
        sample: `S${k}`,
        method: 'luminescence',
        value: String(1000 * top),
        error: '50',
        reference_year: '1950',
      })),
      points: tops.map((_, k) => ({
        point: `P${k}`,
        sample: `S${k}`,
        kind: 'index',
        lower: 'MHW',
        upper: 'HAT',
        status: 'accepted',
      })),
    };
    const { campaign, problems } = campaignOf('a hole', tables);
    const { results, curveInput } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
    assert.deepEqual(
      results.problems.filter((p) => p.severity === 'error'),
      [],
    );
    return curveInput!.settings.depth_order
      ? curveInput!.points.map(({ older_below = [] }) => older_below.join(' '))
      : 'off';
  };
  // Those at 2 and 2.01 m overlap.
  assert.deepEqual(below(), ['P1 P2 P3', 'P3', 'P3', '']);
  assert.equal(below({ depth_order: 'off' }), 'off');
});
