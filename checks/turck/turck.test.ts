/** Six published vibracores, Turck 2014 (README.md), from tables to depths and elevations. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { parseCampaign, readFiles } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { fromUtm, geodesic } from '@stillstand/science/survey';
import { readTable } from '../points/table.ts';
import { convert, geographic, type Tables } from './convert.ts';

const data = (name: string) => readTable(new URL(`../depth/data/${name}.csv`, import.meta.url));
const cores = data('cores');
const layers = data('layers');
const tables = convert(cores, layers);

const CENTIMETRE = 0.01;
const near = (a: number, b: number, tolerance: number, what: string) =>
  assert.ok(Math.abs(a - b) <= tolerance + 1e-9, `${what}: ${a} is not ${b}`);

const folder = new URL('./campaign/', import.meta.url);
const files = new Map(
  readdirSync(folder).map((name) => [name, new Uint8Array(readFileSync(new URL(name, folder)))]),
);
const { document, problems: unread } = readFiles(files);
const { campaign, problems: unparsed } = parseCampaign(document);
const { results } = computeCampaign(campaign, { curves: {} }, [...unread, ...unparsed], { withCurve: false });

test('the stored campaign is what the conversion makes', () => {
  for (const [name, rows] of Object.entries(tables) as [keyof Tables, Record<string, string>[]][]) {
    const stored = readTable(new URL(`./campaign/${name}.csv`, import.meta.url));
    assert.equal(stored.length, rows.length, name);
    stored.forEach((row, i) => {
      for (const [column, cell] of Object.entries(row))
        assert.equal(cell, rows[i]![column] ?? '', `${name} ${i} ${column}`);
    });
  }
});

test('read and computed without a danger, an error or a warning', () => {
  const grave = results.problems.filter((p) => p.severity !== 'note');
  assert.deepEqual(grave, []);
  assert.equal(results.holes.length, 6);
});

test('positions by another arithmetic, six of six to a centimetre', () => {
  for (const core of cores) {
    const [easting_m, northing_m] = [
      Number(core['easting_utm17n_nad83_m']),
      Number(core['northing_utm17n_nad83_m']),
    ];
    const twin = geographic(easting_m, northing_m);
    const place = fromUtm({ easting_m, northing_m, zone: 17, hemisphere: 'N' })!;
    near(place.latitude_deg, twin.latitude_deg, 1e-7, 'latitude');
    near(place.longitude_deg, twin.longitude_deg, 1e-7, 'longitude');
  }
});

test('one step of 1.277 m between the zeros: ground on MLLW as published, six of six', () => {
  for (const core of cores) {
    const hole = results.holes.find((h) => h.hole === core['core_id'])!;
    near(hole.ground_elevation_m!.value, Number(core['surface_elevation_cm_mllw']) / 100, 1e-9, hole.hole);
  }
});

test('tops of sand and clay on MLLW within 1 cm, the middle of a range for a range', () => {
  let compared = 0;
  for (const layer of layers) {
    const [low, high] = [layer['top_elevation_min_cm_mllw'], layer['top_elevation_max_cm_mllw']];
    if (low === '' || high === '') continue;
    const unit = results.holes
      .find((h) => h.hole === layer['core_id'])!
      .units.find((u) => u.unit === `L${layer['layer_no']}`)!;
    const published = (Number(low) + Number(high)) / 200;
    near(unit.elevation_top_m!.value, published, CENTIMETRE, `${layer['core_id']} ${unit.unit}`);
    compared++;
  }
  assert.equal(compared, 12);
});

test('removed + sample + shortening = sum of the corrected layers within 2 cm: the base of each core', () => {
  for (const core of cores) {
    const hole = results.holes.find((h) => h.hole === core['core_id'])!;
    const own = layers.filter((l) => l['core_id'] === hole.hole);
    const most = (l: (typeof own)[number]) => Number(l['thickness_max_cm'] || l['thickness_min_cm']);
    const sum =
      (Number(own[0]!['thickness_min_cm']) + most(own[1]!) + Number(own[2]!['thickness_min_cm'])) / 100;
    const run = hole.runs[0]!;
    assert.equal(run.method, 'push');
    near(run.depth_bottom_m.value, sum, 2 * CENTIMETRE, `${hole.hole} base`);
    near(run.depth_top_m.value, Number(core['top_layer_removed_before_coring_cm']) / 100, 1e-9, 'top');
    const sample = Number(core['sample_length_after_shortening_cm']);
    near(run.sampler_recovery!, sample / (sample + Number(core['shortening_cm'])), 1e-9, 'recovery');
    // and as an elevation, where the layers' own sum puts it
    const base = results.samples.find((s) => s.sample === `${hole.hole} base`)!;
    near(
      base.elevation_m!.value,
      hole.ground_elevation_m!.value - sum,
      2 * CENTIMETRE + base.elevation_m!.sigma,
      `${hole.hole} base elevation`,
    );
  }
});

test('their section: distances along it are those of the published positions', () => {
  const at = (id: string) => cores.find((c) => c['core_id'] === id)!;
  const east = (id: string) => Number(at(id)['easting_utm17n_nad83_m']);
  const north = (id: string) => Number(at(id)['northing_utm17n_nad83_m']);
  // scale of the projection 28 km from its meridian: 0.9996·(1 + E²/2R²)
  const scale = 0.9996 * (1 + (472_064 - 500_000) ** 2 / (2 * 6_371_000 ** 2));
  for (const id of ['MT02', 'MT03', 'MT04', 'MT05', 'MT06']) {
    const place = (x: string) => geographic(east(x), north(x));
    const plane = Math.hypot(east(id) - east('MT01'), north(id) - north('MT01')) / scale;
    near(geodesic(place('MT01'), place(id)).distance_m, plane, 0.001, id);
  }
});

test('on the central meridian the northing is the meridian’s arc, integrated', () => {
  const { latitude_deg, longitude_deg } = geographic(500_000, 3_479_335.478);
  assert.equal(longitude_deg, -81);
  const f = 1 / 298.257222101;
  const e2 = f * (2 - f);
  const end = (latitude_deg * Math.PI) / 180;
  const steps = 2000;
  let arc = 0;
  for (let i = 0; i <= steps; i++) {
    const phi = (end * i) / steps;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    arc += weight * (1 - e2 * Math.sin(phi) ** 2) ** -1.5;
  }
  near((6378137 * (1 - e2) * arc * (end / steps)) / 3, 3_479_335.478 / 0.9996, 0.001, 'arc');
});
