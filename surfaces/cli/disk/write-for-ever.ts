/** For the test that kills it: writes runs a and b into the folder given, in turn, and says each time that one stands. */
import { randomBytes } from 'node:crypto';
import { type Entry, target, writeWhole } from './write.ts';

const folder = process.argv[2]!;
for (let n = 0; ; n++) {
  const which = n % 2 === 0 ? 'a' : 'b';
  const entries = Array.from({ length: 20 }, (_, i): Entry => {
    const path = i === 0 ? 'results.json' : `tables/${i}.csv`;
    return [path, `${which}${randomBytes(30_000).toString('hex')}`];
  });
  const place = await target(folder, { replace: 'results' });
  await writeWhole(place, entries, { checksums: true, keep: true });
  process.stdout.write(`${which}\n`);
}
