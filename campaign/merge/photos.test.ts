import assert from 'node:assert/strict';
import { test } from 'node:test';
import { PHOTOS_LEFT_OUT } from '@stillstand/campaign/document';
import { filesBetween } from './photos.ts';

test('the list of a copy without photos is no file that comes, nor one that is only here', () => {
  const side = (...paths: string[]) =>
    ({ files: new Map(paths.map((path) => [path, 10])) }) as unknown as Parameters<typeof filesBetween>[0];
  const merged = { rows: () => [{ cells: { file: 'photos/a.jpg' } }, { cells: { file: 'photos/b.jpg' } }] };
  const between = (ours: ReturnType<typeof side>, theirs: ReturnType<typeof side>) =>
    filesBetween(ours, theirs, merged as unknown as Parameters<typeof filesBetween>[2]);
  const whole = side('photos/a.jpg');
  const without = side(PHOTOS_LEFT_OUT);
  assert.deepEqual(between(whole, without), { come: [], bytes: 0, only_here: 1, missing: ['photos/b.jpg'] });
  assert.deepEqual(between(without, whole), {
    come: ['photos/a.jpg'],
    bytes: 10,
    only_here: 0,
    missing: ['photos/b.jpg'],
  });
});
