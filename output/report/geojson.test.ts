/** RFC 7946 by its words; the numbers are those of the results. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { HOSTILE, tinyResults } from './fixtures/results.ts';
import { resultsGeoJson } from './geojson.ts';

interface Collection {
  type: string;
  features: {
    type: string;
    id: string;
    geometry: { type: string; coordinates: number[] } | null;
    properties: Record<string, unknown>;
  }[];
}

const read = (results = tinyResults()): Collection => JSON.parse(resultsGeoJson(results)) as Collection;

test('a FeatureCollection of every hole and point, longitude first, heights in the properties (§3.1, §3.2, §4)', () => {
  const results = tinyResults();
  const { type, features } = read();
  assert.equal(type, 'FeatureCollection');
  assert.equal(features.length, results.holes.length + results.points.length);
  for (const { type: kind, geometry } of features) {
    assert.equal(kind, 'Feature');
    if (geometry === null) continue;
    assert.equal(geometry.type, 'Point');
    assert.equal(geometry.coordinates.length, 2);
    const [longitude, latitude] = geometry.coordinates;
    assert.ok(Math.abs(longitude!) <= 180 && Math.abs(latitude!) <= 90);
  }
  const hole = results.holes.find((each) => each.longitude_deg !== null)!;
  const found = features.find((each) => each.properties['hole'] === hole.hole)!;
  assert.deepEqual(found.geometry?.coordinates, [
    Number(hole.longitude_deg!.toFixed(6)),
    Number(hole.latitude_deg!.toFixed(6)),
  ]);
  assert.equal(new Set(features.map((each) => each.id)).size, features.length, 'ids are used once');
});

test('what has no position keeps its place with a null geometry (§3.2)', () => {
  const results = tinyResults();
  const homeless = results.holes.map((hole) => ({ ...hole, latitude_deg: null }));
  const { features } = read({ ...results, holes: homeless });
  assert.ok(features.every((each) => each.geometry === null));
  assert.equal(features.length, results.holes.length + results.points.length);
});

test('sea level and its error are those of the point, whatever stands in its words', () => {
  const results = tinyResults();
  const { features } = read({
    ...results,
    points: results.points.map((p) => ({ ...p, indicator: HOSTILE })),
  });
  for (const point of results.points) {
    const { properties } = features.find((each) => each.properties['point'] === point.point)!;
    assert.ok(Math.abs(Number(properties['rsl_m']) - point.rsl_m) <= 0.005 + 1e-9);
    assert.equal(properties['indicator'], HOSTILE);
    assert.equal(properties['datum'], results.datum.label);
  }
});
