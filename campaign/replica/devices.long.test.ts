/**
 * Five devices, one file opened on two or more of them, each migrated on its own, 2,000 edits. A history takes some ten
 * seconds, mostly for reading tables again; the gate drives six of the 200 that STILLSTAND_HISTORIES=200 drives.
 */
import { test } from 'node:test';
import { devicesAgree } from './fixtures/devices.ts';

const histories = Number(process.env['STILLSTAND_HISTORIES'] ?? 6);
for (let seed = 1001; seed <= 1000 + histories; seed++) {
  test(`rows once, nothing lost, edits kept: seed ${seed}`, () => {
    devicesAgree(seed, { count: 5, edits: 2000 });
  });
}
