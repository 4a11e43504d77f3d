/** Strips of photographs in the lanes of a graphic log: where they fit, and what is said where they do not. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { graphicLog } from '../column-figure.tsx';
import { oneHole } from '../fixtures/column.ts';
import { measured } from '../fixtures/on-paper.ts';
import { photographedHole, STRIPS } from '../fixtures/photographed.ts';

const log = (width_mm: number, pictures = STRIPS) =>
  graphicLog(photographedHole, 'T3', { width_mm, pictures });
const strips = (svg: string): number => [...svg.matchAll(/<image /g)].length;

test('what a width cannot hold is the photographs first, and the width that holds them is said', () => {
  assert.equal(strips(log(190).svg), 2);
  for (const width_mm of [60, 90, 120, 130]) {
    const { svg, warnings } = log(width_mm);
    assert.equal(strips(svg), 0);
    const [, least] = /Narrow: .*the photographs.*whole from (\d+) mm wide/.exec(warnings.join('\n'))!;
    assert.equal(strips(log(Number(least)).svg), 2);
    assert.ok(log(Number(least)).warnings.every((words) => !words.startsWith('Narrow')));
  }
});

test('nothing else is lost by them: every lane is moved as a whole', () => {
  const texts = (svg: string) => measured(svg).texts.map(({ text }) => text);
  const [withStrips, without] = [log(190), graphicLog(oneHole, 'T3', { width_mm: 190 })];
  const drawn = new Set(texts(withStrips.svg.replace(/<desc>.*?<\/desc>/s, '')));
  const names = texts(without.svg).filter((text) =>
    /^(T3|0\d|1\d|[\d,]+ ± \d+ BP.*|clay|gravel|sample)$/.test(text),
  );
  for (const name of names) assert.ok(drawn.has(name), name);
  assert.ok(drawn.has('photo'));
});

test('a photograph that cannot be drawn is named once with what to do, and one without marks is counted', () => {
  const { warnings, caption } = log(190);
  const named = warnings.filter((words) => words.includes('photos/01234567….heic'));
  assert.equal(named.length, 1);
  assert.match(named[0]!, /\(HEIC\): convert to JPEG/);
  // A season’s photographs that this device does not have are one line.
  const seven = [1, 2, 3, 4, 5, 6, 7].map((n) => ({
    ...photographedHole.photographs[0]!,
    row_id: `${n}`,
    file: `photos/${n}.jpg`,
  }));
  const missing = new Map(seven.map(({ row_id }) => [row_id, { fault: 'missing' as const }]));
  const lines = graphicLog({ ...oneHole, photographs: seven }, 'T3', { pictures: missing }).warnings;
  assert.deepEqual(lines, [
    'Photographs of T3 1 (photos/1.jpg), T3 1 (photos/2.jpg), T3 1 (photos/3.jpg) and 4 more not drawn (file not in the campaign): add the file again',
  ]);
  assert.match(caption, /Not drawn: 1 photograph without two marks\./);
  assert.doesNotMatch(graphicLog(photographedHole, 'T3').caption, /[Pp]hotograph/);
});
