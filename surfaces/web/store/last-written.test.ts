import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Act } from '@stillstand/campaign/replica';
import { lastWritten } from './last-written.ts';

const rows = (times: readonly string[]) =>
  withRows(
    newDocument('Last'),
    'soundings',
    times.map((time, i) => ({ hole: 'H1', seq: String(i), time, by: 'driller', device: `tablet ${i}` })),
  );
const act = (time: string): Act => ({
  id: time,
  time,
  by: 'geologist',
  device: 'laptop',
  how: 'done',
  changes: [],
});

test('the newest reading or act is named, by moments and not by the clocks as written', () => {
  // 09:00 at −08:00 is 17:00 UTC, later than 16:30 at +00:00.
  const document = rows(['2026-02-15T09:00:00-08:00', '2026-02-15T16:30:00+00:00', 'noon']);
  assert.deepEqual(lastWritten(document, []), {
    time: '2026-02-15T09:00:00-08:00',
    by: 'driller',
    device: 'tablet 0',
  });
  assert.equal(lastWritten(document, [act('2026-02-15T17:01:00+00:00')])!.device, 'laptop');
  assert.equal(lastWritten(newDocument('Empty'), []), null);
});
