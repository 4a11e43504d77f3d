/** Candidates for the ages of a run are drawn as their density says, in every kind of run. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, mean, randomStream, standardDeviation } from '@stillstand/science/base';
import { logProposal, propose } from './candidates.ts';
import { emptyHistory, tell } from './history.ts';
import { makeHole } from './hole.ts';
import { bendsOf, type Run, runOf } from './run.ts';
import { readyRun } from './run-bent.ts';
import { ageDepthDefaults } from './settings.ts';

const DRAWS = 200_000;
/** An end that is open reaches so far for this, yr. */
const REACH = 4000;

const breakAt = (d: number) => ({ id: `contact at ${d} m`, depth_m: Float64Array.of(d) });

// Of one, two and three horizons 9, 7 and 5 by their start and ends, each in two directions. Of a break, the same once more
// where it is not in an open end: 6, 5 and 5.
for (const [name, breaks, kinds] of [
  ['no break', [], 42],
  ['a break amid the dates', [breakAt(1.4)], 42 + 32],
] as const)
  test(`${DRAWS} candidates for each kind of run: as many in the middle as their density says, ${name}, seed 12`, (t) => {
    const hole = makeHole(
      {
        horizons: [0.4, 1.1, 1.7, 2.3].map((d, i) => ({
          id: `D${i}`,
          depth_m: Float64Array.of(d),
          age: { from_cal_bp: 300, density: Float64Array.from({ length: 4000 }, (_, y) => exp(-y / 2000)) },
        })),
        surface: null,
        breaks,
        bottom_m: 3,
      },
      { ...ageDepthDefaults, sections: 12, age_range_cal_bp: { youngest: -80, oldest: 6000 } },
    );
    assert(!('kind' in hole));
    const h = emptyHistory(hole, { mean: log(1200), log_variation: log(0.6), log_persistence: 0 });
    h.state = 0;
    h.ground_cal_bp = 200;
    h.gap_yr.fill(400);
    h.u.forEach((_, j) => {
      h.u[j] = log(900 + 60 * j);
    });
    tell(h);
    const room = bendsOf(hole);
    const stream = randomStream(12);
    const seen = new Map<string, Run>();
    for (let k = 0; k < 4000; k++) {
      const count = 1 + stream.integer(3);
      const run = runOf(h, room, stream.integer(5 - count), count, stream);
      const gap = run.gap < 0 ? '' : `, gap free below ${run.aboveGap}`;
      const ends = [run.opensUp ? 'open above' : '', run.opensDown ? 'open below' : ''].filter(Boolean);
      seen.set(
        `${count} ${run.goesUp ? 'upward' : 'downward'} from ${run.start}, ${ends.join(' and ') || 'closed'}${gap}`,
        run,
      );
    }
    assert.equal(seen.size, kinds);
    for (const [name, run] of seen) {
      assert(readyRun(h, room, run) > -Infinity, name);
      const end = Math.min(run.end, Math.max(run.begin, 0) + REACH);
      const each = (end - run.begin) / run.count;
      // The middle half of as many even parts.
      const isInside = (): boolean =>
        room.age.subarray(0, run.count).every((age, k) => {
          const share = (age - run.begin) / each - k;
          return share > 0.25 && share < 0.75;
        });
      const shares = Float64Array.from({ length: DRAWS }, () => {
        propose(h, room, run, stream);
        return isInside() ? exp(-logProposal(h, room, run)) / (each / 2) ** run.count : 0;
      });
      const [share, error] = [mean(shares), standardDeviation(shares) / Math.sqrt(DRAWS)];
      t.diagnostic(`${name}: ${share.toFixed(3)} ± ${error.toFixed(3)}`);
      // 4 errors, of forty-two: once in four hundred seeds.
      assert(Math.abs(share - 1) < 4 * error && error < 0.1, `${name}: ${share} ± ${error}`);
    }
  });
