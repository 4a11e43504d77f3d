/** What is shown while a point is edited is what the computation then says. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { parseCampaign, readFiles, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { loadCurve } from '@stillstand/published/curves';
import { asDeclared, claimAtOnce, tideOf, tideThenOf } from './claim.ts';

const folder = join(import.meta.dirname, '..', '..', '..', 'demo', 'campaign');
const { document } = readFiles(
  new Map(
    readdirSync(folder)
      .filter((name) => /\.(csv|json)$/.test(name))
      .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]),
  ),
);
const curves: Parameters<typeof computeCampaign>[1]['curves'] = {};
for (const name of ['shcal20', 'marine20'] as const) curves[name] = await loadCurve(name);

function computed(of: typeof document) {
  const { campaign, problems } = parseCampaign(of);
  const { results } = computeCampaign(campaign, { curves }, problems, { withCurve: false });
  return { campaign, results };
}

const { campaign, results } = computed(document);
const row = (label: string) => campaign.rows.points.find((p) => p.point === label)!;
const words = (bound: { level: string; offset_m: number } | null): string =>
  bound === null ? '' : `${bound.level}${bound.offset_m === 0 ? '' : `+${bound.offset_m}`}`;

test('every point of the demo comes out as the computation has it, and with another tidal range of its time', () => {
  const ranges = [
    { age_cal_bp: '0', factor: '1', factor_sigma: '0' },
    { age_cal_bp: '9000', factor: '1.4', factor_sigma: '0.1', source: 'a model' },
  ];
  for (const edited of [{ campaign, results }, computed(withRows(document, 'tide_ranges', ranges))]) {
    for (const point of edited.results.points) {
      const { kind, lower, upper } = row(point.point);
      const site = edited.results.samples.find((s) => s.sample === point.sample)!.site;
      const tide = tideOf(edited.campaign, site, edited.results.datum.label);
      const claim = claimAtOnce(
        point,
        { kind, lower: words(lower), upper: words(upper) },
        null,
        tide,
        site,
        tideThenOf(point, tide, edited.results.datum.kind),
      );
      assert.ok(claim.ok, point.point);
      assert.equal(point.tidal_range !== null, edited.campaign !== campaign);
      assert.ok(Math.abs(claim.rsl_m - point.rsl_m) < 1e-12, point.point);
      assert.ok(Math.abs(claim.sigma_m - point.rsl_sigma_m) < 1e-12, point.point);
    }
  }
});

test('an edited part gives at once what declaring it gives', () => {
  const point = results.points.find((p) => p.point === 'P-T3-07')!;
  const edited = { ...asDeclared(point.components.find((c) => c.component === 'sampling')!), value_m: 0.4 };
  const { kind, lower, upper } = row(point.point);
  const site = results.samples.find((s) => s.sample === point.sample)!.site;
  const at = claimAtOnce(
    point,
    { kind, lower: words(lower), upper: words(upper) },
    edited,
    tideOf(campaign, site, results.datum.label),
    site,
    null,
  );
  const errors = document.tables.get('point_errors')!;
  const before = errors.rows.map(({ cells }) =>
    Object.fromEntries(errors.columns.map((name, i) => [name, cells[i] ?? ''])),
  );
  const declared = {
    point: 'P-T3-07',
    component: 'sampling',
    value_m: '0.4',
    sigma_level: '2',
    shape: 'normal',
  };
  const after = computed(withRows(document, 'point_errors', [...before, declared]));
  const then = after.results.points.find((p) => p.point === 'P-T3-07')!;
  assert.ok(at.ok);
  assert.ok(at.sigma_m > point.rsl_sigma_m);
  assert.ok(Math.abs(at.sigma_m - then.rsl_sigma_m) < 1e-12);
});

test('a part declared as it stands changes nothing', () => {
  for (const point of results.points) {
    for (const part of point.components) {
      const again = asDeclared(part);
      const sigma =
        again.shape === 'normal'
          ? again.value_m / 2
          : again.shape === 'uniform'
            ? again.value_m / Math.sqrt(3)
            : again.value_m;
      assert.ok(Math.abs(sigma - part.sigma_m) < 1e-4);
    }
  }
});

test('a word that is no tide word is an answer, not a fault', () => {
  const point = results.points.find((p) => p.kind === 'index')!;
  const claim = claimAtOnce(point, { kind: 'index', lower: 'MHX', upper: 'HAT' }, null, [], null, null);
  assert.equal(claim.ok, false);
  assert.ok(!claim.ok && claim.found === 'MHX' && claim.fix !== '');
});
