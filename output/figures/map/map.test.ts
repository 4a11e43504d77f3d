/** The map's own parts: lines cut to the frame, hachures on the side of the sea, and the land of the inset. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { geodesic, type Position } from '@stillstand/science/survey';
import { block } from '../fixtures/coast.ts';
import { insetIn, RADIUS, SHOWN_DEG } from './inset.ts';
import { hachures, piecesOf } from './on-paper.ts';

const FRAME = { x1: 0, y1: 0, x2: 200, y2: 160 };
const flat = ({ latitude_deg, longitude_deg }: Position): [number, number] => [longitude_deg, latitude_deg];
const paper = { frame: FRAME, near: flat, at: flat };
const line = (...points: [number, number][]): Position[] =>
  points.map(([longitude_deg, latitude_deg]) => ({ longitude_deg, latitude_deg }));

test('of a line the pieces that cross the frame are drawn, also where no place lies in it', () => {
  const across = piecesOf(line([-900, 80], [900, 80]), false, paper);
  assert.deepEqual(across, [
    [
      [-900, 80],
      [900, 80],
    ],
  ]);
  const twice = piecesOf(line([10, 10], [20, 10], [20, 900], [60, 900], [60, 20], [70, 20]), false, paper);
  assert.deepEqual(
    twice.map((piece) => [piece[0], piece.at(-1)]),
    [
      [
        [10, 10],
        [20, 900],
      ],
      [
        [60, 900],
        [70, 20],
      ],
    ],
  );
  assert.deepEqual(piecesOf(line([500, 500], [600, 700]), false, paper), []);
  // Finer than is seen: 2,000 places in 10 points are some thirty.
  const fine = Array.from({ length: 2000 }, (_, i): [number, number] => [50 + i / 200, 50]);
  const [thin] = piecesOf(line(...fine), false, paper);
  assert.ok(thin!.length < 40 && thin!.length > 20, `${thin!.length}`);
  assert.deepEqual([thin![0], thin!.at(-1)], [fine[0], fine.at(-1)]);
});

test('hachures are on the side of the sea, at right angles and evenly', () => {
  // To the east on paper, where y goes down: the left is up.
  const east: [number, number][] = [
    [0, 50],
    [7, 50],
    [24, 50],
  ];
  const left = hachures(east, 'left');
  assert.equal(left.length, 10);
  for (const [[x1, y1], [x2, y2]] of left) assert.ok(x1 === x2 && y1 === 50 && y2 < 50);
  for (const [[, y1], [, y2]] of hachures(east, 'right')) assert.ok(y2 > y1);
  const steps = left.slice(1).map(([[x]], i) => x - left[i]![0][0]);
  for (const step of steps) assert.ok(Math.abs(step - 2.4) < 1e-9);
});

test('the land of the inset is where it is on the Earth, also what reaches its other side', () => {
  // A small piece, one across the date line, and one of which the far side of the Earth is part.
  const pieces = [block(-10, 30, 20, 60), block(170, -30, 200, 0), block(-60, -60, 60, 20)];
  const isLand = (lon: number, lat: number): boolean =>
    [
      [-10, 30, 20, 60],
      [170, -30, 200, 0],
      [-60, -60, 60, 20],
    ].some(([w, s, e, n]) =>
      [lon, lon + 360, lon - 360].some((x) => x > w! && x < e! && lat > s! && lat < n!),
    );
  let seen = 0;
  for (const [latitude_deg, longitude_deg] of [
    [45, 5],
    [-15, 178],
    [20, 179],
    [-40, 140],
    [80, 0],
  ] as const) {
    const middle = { latitude_deg, longitude_deg };
    const inset = insetIn(FRAME, middle, pieces, { taken: [], shore: [] })!;
    for (let lat = -80; lat <= 80; lat += 7)
      for (let lon = -178; lon <= 180; lon += 7) {
        const line = geodesic(middle, { latitude_deg: lat, longitude_deg: lon });
        if (line === null) continue;
        // A degree of the sphere is 111.2 km; what lies at the edge of land or inset is left out.
        const away = line.distance_m / 111_200;
        const near = [-1.5, 1.5].some(
          (d) => isLand(lon + d, lat) !== isLand(lon, lat) || isLand(lon, lat + d) !== isLand(lon, lat),
        );
        if (away > SHOWN_DEG - 2 || near) continue;
        const azimuth = (line.azimuth_deg * Math.PI) / 180;
        const r = (away / SHOWN_DEG) * RADIUS;
        seen += 1;
        assert.equal(
          isFilled(inset.land, r * Math.sin(azimuth), -r * Math.cos(azimuth)),
          isLand(lon, lat),
          `${lat} ${lon} from ${latitude_deg} ${longitude_deg}`,
        );
      }
  }
  assert.ok(seen > 300, `${seen}`);
});

/** As SVG and PDF fill: where the rings wind round a place at all. */
const isFilled = (
  rings: readonly (readonly (readonly [number, number])[])[],
  x: number,
  y: number,
): boolean => {
  let winding = 0;
  for (const ring of rings)
    for (const [i, [x2, y2]] of ring.entries()) {
      const [x1, y1] = ring.at(i - 1)!;
      if (y1 > y === y2 > y || x >= x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) continue;
      winding += y2 > y1 ? 1 : -1;
    }
  return winding !== 0;
};

test('the inset takes a free corner, off the shore where it can, or none', () => {
  const land = [block(0, 0, 10, 10)];
  const middle = { latitude_deg: 5, longitude_deg: 5 };
  const corner = (taken: (typeof FRAME)[], shore: (typeof FRAME)[]) => {
    const inset = insetIn(FRAME, middle, land, { taken, shore });
    return inset === null ? null : `${inset.x > 100 ? 'right' : 'left'} ${inset.y > 80 ? 'low' : 'high'}`;
  };
  const half = (x1: number, x2: number, y1 = 0, y2 = 160) => ({ x1, x2, y1, y2 });
  assert.equal(corner([], []), 'right high');
  assert.equal(corner([half(190, 200)], []), 'left high');
  assert.equal(corner([half(190, 200)], [half(0, 200, 0, 20)]), 'left low');
  assert.equal(corner([half(190, 200)], [half(0, 200)]), 'left high');
  assert.equal(corner([half(0, 200)], []), null);
  assert.equal(insetIn(FRAME, middle, [], { taken: [], shore: [] }), null);
});
