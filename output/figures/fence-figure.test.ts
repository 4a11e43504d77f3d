/** The fence, measured on its SVG: holes named, bars true in all three directions, near panels over far ones; and where there is none. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fence, fenceApart, fenceOfOneLine } from './fixtures/fence.ts';
import { type Measured, measured, overlappingTexts } from './fixtures/on-paper.ts';
import { fenceFigure, figuresOf } from './index.ts';

const inGroup = (all: readonly Measured[], id: string): Measured[] =>
  all.filter((each) => each.in.includes(id));

for (const width_mm of [190, 140, 90]) {
  test(`fence, ${width_mm} mm: every hole and line is named once, nothing over another or off the paper`, () => {
    const { svg, warnings } = fenceFigure(fence, { width_mm });
    const { texts } = measured(svg);
    assert.deepEqual(warnings, []);
    assert.deepEqual(overlappingTexts(texts), []);
    assert.deepEqual(
      inGroup(texts, 'fence-names')
        .map(({ text }) => text)
        .sort(),
      fence.holes.map(({ hole }) => hole).sort(),
    );
    assert.deepEqual(
      inGroup(texts, 'fence-lines')
        .map(({ text }) => text)
        .sort(),
      ['A', 'B'],
    );
    const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)/.exec(svg)!.map(Number);
    for (const { text, x1, x2, y1, y2, size } of texts) {
      assert.ok(size >= 7, text);
      assert.ok(x1 >= 0 && x2 <= width! && y1 >= 0 && y2 <= height!, text);
    }
  });
}

test('the bars are true: east at full length, north half as long under 45 degrees, heights by their own bar', () => {
  const { svg } = fenceFigure(fence);
  const { texts, paths } = measured(svg);
  const staffs = paths.filter(
    ({ attributes }) => attributes['fill'] === '#FFFFFF' && attributes['stroke-width'] === '0.65',
  );
  const of = (label: string): Measured => {
    const name = inGroup(texts, 'fence-names').find(({ text }) => text === label)!;
    const middle = (name.x1 + name.x2) / 2;
    return staffs.reduce((a, b) =>
      Math.abs((b.x1 + b.x2) / 2 - middle) + Math.abs(b.y1 - name.y2) <
      Math.abs((a.x1 + a.x2) / 2 - middle) + Math.abs(a.y1 - name.y2)
        ? b
        : a,
    );
  };
  const bars = inGroup(paths, 'fence-bars');
  const words = inGroup(texts, 'fence-bars').map(({ text }) => text);
  const metres = (start: RegExp): number =>
    Number(/[\d.]+/.exec(words.find((text) => start.test(text))!)![0]);
  const [corner, east] = [bars[0]!.vertices[0]!, bars[0]!.vertices[1]!];
  const north = bars[1]!.vertices[1]!;
  const [foot, up] = [bars[2]!.vertices[0]!, bars[2]!.vertices[1]!];
  const [perEast, perUp] = [(east[0] - corner[0]) / metres(/^east/), (foot[1] - up[1]) / metres(/up$/)];
  // T1 to T2: 130 m to the east.
  const [t1, t2] = [of('T1'), of('T2')];
  assert.ok(Math.abs((t2.x1 - t1.x1) / perEast - 130) < 1, `${(t2.x1 - t1.x1) / perEast} m`);
  // N1 stands on the same ground as T2, 210 m to the north: half of that at 45 degrees.
  const n1 = of('N1');
  const long = Math.hypot(n1.x1 - t2.x1, n1.y1 - t2.y1);
  assert.ok(Math.abs(long / perEast - 105) < 1, `${long / perEast} m drawn`);
  assert.ok(Math.abs(Math.abs(n1.x1 - t2.x1) - Math.abs(n1.y1 - t2.y1)) < 0.3, 'under 45 degrees');
  const barLong = Math.hypot(north[0] - corner[0], north[1] - corner[1]);
  assert.ok(Math.abs(barLong / perEast - metres(/^N/) / 2) < 0.5, `${barLong / perEast} m`);
  // T2 is 9.1 m deep.
  assert.ok(Math.abs((t2.y2 - t2.y1) / perUp - 9.1) < 0.05, `${(t2.y2 - t2.y1) / perUp} m`);
  const stated = texts.find(({ text }) => text.startsWith('vertical exaggeration'))!.text;
  // Printed to a tenth below 10, else whole.
  const factor = Number(/[\d.]+/.exec(stated)![0]);
  assert.ok(
    Math.abs(factor - perUp / perEast) < (factor < 10 ? 0.06 : 0.6),
    `${factor}, drawn ${perUp / perEast}`,
  );
});

test('where there is nothing to cross the figure says why, and is not among those of the campaign', () => {
  for (const [results, why] of [
    [fenceOfOneLine, /needs two section lines[^;]*; there is one$/],
    [{ ...fence, sections: [] }, /there are none$/],
    [fenceApart, /do not cross and share no hole$/],
  ] as const) {
    assert.match(fenceFigure(results).warnings.join(), why);
    assert.ok(!figuresOf(results, {}).some(({ name }) => name === 'fence'));
  }
  const names = figuresOf(fence, {}).map(({ name }) => name);
  for (const name of ['section-A', 'section-B', 'fence']) assert.ok(names.includes(name), names.join());
});
