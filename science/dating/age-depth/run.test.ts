/**
 * Ages of a run, alone, with s and with the whole law, on histories that are draws of the density they should leave: what was drawn from the prior
 * and kept as often as its dates say must be so distributed after either move as before. The chain has many moves, and hides
 * a fault of one.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, mean, type RandomStream, randomStream, standardDeviation } from '@stillstand/science/base';
import { drawAges } from './bend.ts';
import { emptyHistory, type History, tell } from './history.ts';
import { type Hole, makeHole } from './hole.ts';
import { drawLaw } from './law.ts';
import { loosen } from './loosen.ts';
import type { Break } from './model.ts';
import { recast } from './recast.ts';
import { recastingOf } from './recasting.ts';
import { AT_ONCE, bendsOf } from './run.ts';
import { roomToSave } from './saved.ts';
import { ageDepthDefaults } from './settings.ts';
import { stretching } from './stretch.ts';

const density = (mean: number, sd: number) => ({
  from_cal_bp: mean - 5 * sd,
  density: Float64Array.from({ length: 10 * sd }, (_, i) => exp(-0.5 * ((i - 5 * sd) / sd) ** 2)),
});
const depths = (d: number): Float64Array => Float64Array.of(d, d + 0.1);

/** Dates wide enough that draws of the prior fit them now and then, one of them too old for its depth; two states. */
function holeOf(surface: { age_cal_bp: number; sd_yr: number } | null, breaks: readonly Break[]): Hole {
  const hole = makeHole(
    {
      horizons: [
        { id: 'a', depth_m: depths(0.4), age: density(900, 500) },
        { id: 'b', depth_m: depths(1.1), age: density(3300, 800) },
        { id: 'c', depth_m: depths(1.7), age: density(2400, 800) },
      ],
      surface,
      breaks,
      bottom_m: 2,
    },
    { ...ageDepthDefaults, sections: 16, age_range_cal_bp: { youngest: -80, oldest: 700 } },
  );
  assert(!('kind' in hole));
  return hole;
}

/** Of the prior, kept with a probability that the dates' likelihood is in proportion to. */
function drawHistory(hole: Hole, stream: RandomStream): History {
  const { youngest, oldest } = hole.settings.age_range_cal_bp;
  const most = hole.dates.reduce((sum, { whole }) => sum + whole.reduce((a, b) => Math.max(a, b)), 0);
  for (;;) {
    const h = emptyHistory(hole, drawLaw(hole.settings, stream));
    h.state = stream.integer(hole.states);
    h.ground_cal_bp =
      hole.surface === null
        ? youngest + (oldest - youngest) * stream.uniform()
        : hole.surface.age_cal_bp + hole.surface.sd_yr * stream.normal();
    for (let b = 0; b < h.gap_yr.length; b++) h.gap_yr[b] = hole.settings.gap_mean_yr * stream.exponential();
    const { sd, newSd, coefficient } = h.memory;
    let w = 0;
    for (let j = 0; j < hole.sections; j++) {
      w =
        j === 0 || hole.isCut[j] === 1
          ? sd[j]! * stream.normal()
          : coefficient[j]! * w + newSd[j]! * stream.normal();
      h.u[j] = h.law.mean + h.variation * w;
    }
    tell(h);
    if (log(stream.uniform()) < h.level.reduce((sum, l) => sum + l, 0) - most) return h;
  }
}

const numbersOf = (h: History): Record<string, number> => ({
  'ln s': h.law.log_variation,
  'ln L': h.law.log_persistence,
  μ: h.law.mean,
  ground: h.ground_cal_bp,
  'mean of u': mean(h.u),
  'ln of the last age': log(200 + h.top_cal_bp.at(-1)!),
  ...Object.fromEntries([...h.gap_yr].map((yr, b) => [`ln gap ${b + 1}`, log(yr)])),
  ...Object.fromEntries(
    h.hole.horizons.map(({ id }, i) => [`ln age of ${id}`, log(200 + h.bare_cal_bp[i]! + h.gaps_yr[i]!)]),
  ),
});

const DRAWS = 4000;
const MOVES = 12;

const known = { age_cal_bp: 0, sd_yr: 30 };
const contact = (d: number): Break => ({ id: `contact at ${d} m`, depth_m: depths(d) });
for (const [name, surface, breaks] of [
  ['a ground of known age', known, []],
  ['a ground of any age', null, []],
  ['a break', known, [contact(1.5)]],
  ['two breaks and a ground of any age', null, [contact(0.7), contact(0.95)]],
] as const)
  for (const [kind, move] of [
    ['ages of a run', 'bend'],
    ['ages of a run and s', 'loosen'],
    ['ages of a run and the law', 'recast'],
  ] as const)
    test(`${kind} leave ${DRAWS} draws of their density as they are, ${name}, seed 8`, (t) => {
      const hole = holeOf(surface, breaks);
      const stream = randomStream(8).split(name).split(kind);
      const room = bendsOf(hole);
      const stretchRoom = stretching(hole);
      const recasting = recastingOf(hole)!;
      const changes = new Map<string, { plain: number[]; squared: number[] }>();
      let made = 0;
      for (let k = 0; k < DRAWS; k++) {
        const h = drawHistory(hole, stream);
        const before = numbersOf(h);
        const aside = roomToSave(h);
        for (let m = 0; m < MOVES; m++) {
          const count = 1 + stream.integer(Math.min(AT_ONCE, hole.dates.length));
          const start = stream.integer(hole.dates.length - count + 1);
          const isOther = {
            bend: () => drawAges(h, room, start, count, 4, stream),
            loosen: () => loosen(h, room, aside, stretchRoom, start, count, stream),
            recast: () => recast(h, recasting, room, aside, start, count, stream),
          }[move]();
          if (isOther) made++;
        }
        for (const [what, after] of Object.entries(numbersOf(h))) {
          const of = changes.get(what) ?? { plain: [], squared: [] };
          of.plain.push(after - before[what]!);
          of.squared.push(after ** 2 - before[what]! ** 2);
          changes.set(what, of);
        }
      }
      assert(made > DRAWS, `${made} changes`);
      t.diagnostic(`${made} of ${DRAWS * MOVES} made`);
      for (const [what, { plain, squared }] of changes) {
        const [z, z2] = [plain, squared].map((of) => {
          const sd = standardDeviation(of);
          return sd === 0 ? 0 : mean(of) / (sd / Math.sqrt(DRAWS));
        }) as [number, number];
        t.diagnostic(`${what}: ${z.toFixed(1)} errors off, its square ${z2.toFixed(1)}`);
        // Some hundred numbers in all: 4 errors of one are met once in a hundred seeds.
        assert(Math.abs(z) < 4 && Math.abs(z2) < 4, `${what}: ${z}, ${z2} errors off`);
      }
    });
