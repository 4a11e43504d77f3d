/** Lines of one age, worked out by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { timeLines } from './time-lines.ts';

const hole = (name: string, along_m: number, ...ages: [number, number][]) => ({
  hole: name,
  along_m,
  ages: ages.map(([age_cal_bp, elevation_m]) => ({ age_cal_bp, elevation_m })),
});

test('between dated levels an age lies straight, and goes on only to the next hole', () => {
  const holes = [
    hole('C', 200, [1000, -1], [3000, -3]),
    hole('A', 0, [1000, 0], [2000, -4]),
    hole('B', 100, [1500, -1], [2500, -2]),
  ];
  assert.deepEqual(timeLines(holes, [1500, 1250, 2500]), [
    {
      age_cal_bp: 1500,
      line: [
        [0, -2],
        [100, -1],
        [200, -1.5],
      ],
    },
    // B has it at neither end, and A and C are no neighbours: no line of 1,250.
    {
      age_cal_bp: 2500,
      line: [
        [100, -2],
        [200, -2.5],
      ],
    },
  ]);
});

test('ages that reverse are pooled: 2,000 over 1,000 is 1,500 twice', () => {
  const holes = [
    hole('A', 0, [500, 0], [2000, -1], [1000, -2], [3000, -4]),
    hole('B', 10, [0, 0], [3000, -3]),
  ];
  // 1,500 stands from −1 to −2: its middle. 1,000 is half way from 500 to 1,500.
  assert.deepEqual(timeLines(holes, [1500, 1000]), [
    {
      age_cal_bp: 1500,
      line: [
        [0, -1.5],
        [10, -1.5],
      ],
    },
    {
      age_cal_bp: 1000,
      line: [
        [0, -0.5],
        [10, -1],
      ],
    },
  ]);
});

test('lines of two ages never cross: 200 random sections (seed 5)', () => {
  const stream = randomStream(5);
  for (let k = 0; k < 200; k++) {
    const holes = Array.from({ length: 4 }, (_, h) =>
      hole(
        `H${h}`,
        50 * h,
        ...Array.from({ length: 1 + stream.integer(5) }, (): [number, number] => [
          8000 * stream.uniform(),
          -10 * stream.uniform(),
        ]),
      ),
    );
    const lines = timeLines(holes, [1000, 2000, 3000, 4000, 5000, 6000, 7000]);
    for (const young of lines)
      for (const old of lines.filter(({ age_cal_bp }) => age_cal_bp > young.age_cal_bp))
        for (const [x, y] of young.line) {
          const under = old.line.find(([at]) => at === x);
          assert.ok(under === undefined || under[1] <= y + 1e-9, `section ${k}`);
        }
  }
});

test('no holes, no ages, one date, and numbers that are none give no line', () => {
  assert.deepEqual(timeLines([], [1000]), []);
  assert.deepEqual(
    timeLines([hole('A', 0), hole('B', 1, [1000, 0]), hole('C', 2, [Number.NaN, 1])], [1000]),
    [],
  );
});
