import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readShapes } from './index.ts';

const feature = (type: string, coordinates: unknown, properties: Record<string, unknown> = {}) => ({
  type: 'Feature',
  properties,
  geometry: { type, coordinates },
});
const read = (...features: unknown[]) => {
  const { shapes, problem } = readShapes(
    'coast.geojson',
    JSON.stringify({ type: 'FeatureCollection', features }),
  );
  assert.equal(problem, null);
  return shapes!;
};
/** East, north, west, south: against the clock, the inside on the left. */
const SQUARE = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
  [0, 0],
];
const LINE = [
  [0, 0],
  [1, 1],
];

test('lines and areas without a name are a coast, areas with one are grounds', () => {
  const { coasts, grounds } = read(
    feature('LineString', LINE),
    feature('MultiPolygon', [[SQUARE], [SQUARE]]),
    feature('Polygon', [SQUARE], { name: ' Neck marsh ' }),
    feature('LineString', LINE, { name: 'Old shore' }),
    feature('Point', [0, 0]),
  );
  assert.deepEqual(
    coasts.map(({ isClosed, sea, places }) => [isClosed, sea, places.length]),
    [
      [false, null, 2],
      [true, null, 5],
      [true, null, 5],
      [false, null, 2],
    ],
  );
  assert.deepEqual(
    grounds.map(({ name, rings }) => [name, rings.length]),
    [['Neck marsh', 1]],
  );
  assert.deepEqual(coasts[0]!.places[1], { latitude_deg: 1, longitude_deg: 1 });
});

test('the side of the sea is what the file says, whichever way a ring runs', () => {
  const turned = SQUARE.toReversed();
  const seas = (...features: unknown[]) => read(...features).coasts.map(({ sea }) => sea);
  assert.deepEqual(
    seas(
      feature('LineString', LINE, { natural: 'coastline' }),
      feature('LineString', LINE, { sea: 'left' }),
      feature('Polygon', [SQUARE], { natural: 'water', name: 'A bay' }),
      feature('Polygon', [turned], { natural: 'water' }),
      feature('Polygon', [SQUARE, turned], { type: 'Island', name: 'An island' }),
      feature('Polygon', [SQUARE], { sea: 'outside' }),
    ),
    // Of the island with a lake the sea is outside the first ring, the water inside the second.
    ['right', 'left', 'left', 'right', 'right', 'right', 'right'],
  );
});

test('what cannot be drawn says what was found and what to do', () => {
  const found = (text: string): string => readShapes('a.geojson', text).problem?.found ?? '';
  assert.match(found('{'), /JSON/);
  assert.equal(found('{"type":"Point","coordinates":[0,0]}'), 'nothing that can be drawn');
  // Eastings and northings are no degrees.
  assert.equal(
    found(
      JSON.stringify(
        feature('LineString', [
          [401234, 712345],
          [401300, 712400],
        ]),
      ),
    ),
    'nothing that can be drawn',
  );
  const many = Array.from({ length: 200_001 }, (_, i) => [i / 1000, 0]);
  assert.equal(found(JSON.stringify(feature('LineString', many))), '200001 places');
  const { problem } = readShapes('a.geojson', JSON.stringify(feature('LineString', many)));
  assert.equal(problem?.expected, 'at most 200,000 places');
  assert.match(problem.fix, /^Cut the coast to the part round the holes/);
});
