/**
 * Five devices, 2,000 edits, meetings of every kind, clocks that are wrong. The gate drives three of the 200 histories that
 * STILLSTAND_HISTORIES=200 drives.
 */
import { test } from 'node:test';
import { partitionsAgree } from './fixtures/partition.ts';

const histories = Number(process.env['STILLSTAND_HISTORIES'] ?? 3);
for (let seed = 1; seed <= histories; seed++) {
  test(`one campaign, nothing lost, conflicts visible, the same results: seed ${seed}`, () => {
    partitionsAgree(seed);
  });
}
