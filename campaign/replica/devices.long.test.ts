/** Five devices, one file opened on two or more of them, each lifted on its own, 2,000 edits: 200 histories. */
import { test } from 'node:test';
import { devicesAgree } from './fixtures/devices.ts';

for (let seed = 1001; seed <= 1200; seed++) {
  test(`rows once, nothing lost, edits kept: seed ${seed}`, () => {
    devicesAgree(seed, { count: 5, edits: 2000 });
  });
}
