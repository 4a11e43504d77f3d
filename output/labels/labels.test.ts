/** Labels on their sheets, and their codes read back by a library that did not make them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Resvg } from '@resvg/resvg-js';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { labelCode, readLabelCode } from '@stillstand/campaign/tables';
import fc from 'fast-check';
import jsQR from 'jsqr';
import { LABEL_SHEETS, type Label, labelsHtml, labelsOf, rollOf, sheetNamed } from './index.ts';

/** Its types describe another way of packing than Node's. */
const readCode = jsQR as unknown as typeof jsQR.default;
const SEED = 20261129;
const label = (name: string, more: Partial<Label> = {}): Label => ({
  name,
  lines: ['Hole T1, run R3, 0.42–0.46 m', '3.60 m below ground', 'rhizomes', 'Tessarn Spit'],
  code: labelCode('d3000000-0000-4000-8000-000000000001', { kind: 'sample', sample: name }),
  identifier: null,
  ...more,
});

/** Every code on a page, drawn so many dots to a dot of the code and read as a camera would. */
function codesOf(html: string, scale = 4): string[] {
  return [
    ...html.matchAll(
      /<svg width="[\d.]+mm" height="[\d.]+mm" viewBox="0 0 (\d+) \d+"[^>]*>(<path d="[^"]*")/g,
    ),
  ].map(([, side, path]) => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}"><rect width="${side}" height="${side}" fill="#fff"/>${path}/></svg>`;
    const { pixels, width, height } = new Resvg(svg, {
      fitTo: { mode: 'width', value: Number(side) * scale },
    }).render();
    return readCode(new Uint8ClampedArray(pixels), width, height)?.data ?? 'not read';
  });
}

test('the code of each label is read back by another library, and names the sample it hangs on', () => {
  const names = ['T1-0360-B', 'a', 'Probe 7/ä', 'TS-VC-12-0360-A long', '100 %', 'µ/%2F'];
  const { html } = labelsHtml(
    names.map((name) => label(name)),
    sheetNamed('a4-3x8')!,
  );
  const read = codesOf(html);
  assert.equal(read.length, names.length);
  for (const [i, name] of names.entries()) {
    const code = readLabelCode('d3000000-0000-4000-8000-000000000001', read[i]!);
    assert.deepEqual(code, { ok: true, thing: { kind: 'sample', sample: name } });
  }
});

test(`a code says what it was made of, for any labels; another campaign and other codes are told apart (seed ${SEED})`, () => {
  const word = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }).filter((w) => w.trim() === w);
  fc.assert(
    fc.property(word, word, fc.uuid(), (hole, run, id) => {
      const core = { kind: 'core', hole, run } as const;
      assert.deepEqual(readLabelCode(id, ` ${labelCode(id, core)} `), { ok: true, thing: core });
      const sample = { kind: 'sample', sample: hole } as const;
      assert.deepEqual(readLabelCode(id, labelCode(id, sample)), { ok: true, thing: sample });
      const other = readLabelCode('zzzzzzzz', labelCode(id, core));
      assert.ok(!other.ok && other.reason === 'another campaign');
    }),
    { seed: SEED, numRuns: 1000 },
  );
  for (const text of [
    '',
    '4006381333931',
    'https://example.org/a/b',
    'd3000000/sample/',
    'd3000000/core/T1',
    '/sample/x',
  ])
    assert.deepEqual(readLabelCode('d3000000', text), { ok: false, reason: 'no code of ours' }, text);
  assert.deepEqual(readLabelCode(null, labelCode(null, { kind: 'sample', sample: 'x' })).ok, true);
});

test('labels lie on the page and not on each other, on every sheet', () => {
  for (const { page, columns, rows, label: size, left_mm, top_mm, pitch, name } of LABEL_SHEETS) {
    assert.ok(left_mm >= 0 && top_mm >= 0, name);
    assert.ok(left_mm + (columns - 1) * pitch.x_mm + size.width_mm <= page.width_mm + 1e-9, name);
    assert.ok(top_mm + (rows - 1) * pitch.y_mm + size.height_mm <= page.height_mm + 1e-9, name);
    assert.ok(pitch.x_mm >= size.width_mm && pitch.y_mm >= size.height_mm, name);
    assert.equal(sheetNamed(name)?.about, LABEL_SHEETS.find((sheet) => sheet.name === name)?.about);
  }
  // 24 labels of 37 mm fill 296 of the 297 mm of a page.
  assert.equal(sheetNamed('a4-3x8')!.top_mm, 0.5);
  assert.equal(sheetNamed('62 x 29 mm')?.label.height_mm, 29);
  for (const none of ['a4', '10x10', '400x20', '62', '', 'x']) assert.equal(sheetNamed(none), null, none);
});

test('pages are filled from the place that is free', () => {
  const sheet = sheetNamed('a4-3x8')!;
  const labels = Array.from({ length: 30 }, (_, i) => label(`S${i}`));
  assert.equal(labelsHtml(labels, sheet).pages, 2);
  assert.equal(labelsHtml(labels, sheet, { skip: 19 }).pages, 3);
  const { html, pages } = labelsHtml(labels.slice(0, 1), sheet, { skip: 4 });
  assert.equal(pages, 1);
  // The fifth place: second column, second row; 70 mm and 0.5 + 37 mm.
  assert.match(html, /<article style="left:70mm;top:37\.5mm">/);
  assert.equal(labelsHtml([], sheet).pages, 0);
  assert.equal(labelsHtml(labels, rollOf(62, 29)).pages, 30);
});

test('a label too small for its code or name says so; words that have no room are left off, the name never', () => {
  const long = label('A very long name of a sample that somebody gave it on the beach, 2026');
  assert.deepEqual(labelsHtml([long], rollOf(25, 15)).tooSmall, [long.name]);
  assert.deepEqual(labelsHtml([label('T1-0360-B')], rollOf(62, 29)).tooSmall, []);
  const small = labelsHtml([label('T1-0360-B')], sheetNamed('a4-5x13')!);
  assert.deepEqual(small.tooSmall, []);
  assert.match(small.html, /<b[^>]*>\s*T1-0360-B\s*<\/b><p>Hole T1/);
  const marked = labelsHtml([label('<b>&"', { lines: ['</style><script>x</script>'] })], rollOf(89, 36));
  assert.doesNotMatch(marked.html, /<script/);
});

test('what stands on the labels of a campaign', () => {
  let document = newDocument('labels');
  document = withRows(document, 'holes', [
    { hole: 'T1', method: 'string' },
    { hole: 'T2', method: 'hand' },
  ]);
  document = withRows(document, 'runs', [
    { hole: 'T1', seq: '1', run: 'R1', start_mark: '1 m', end_mark: '2 m', recovered: '0.8 m' },
    { hole: 'T1', seq: '2', run: 'R2', start_mark: '2 m', end_mark: '3 m', recovered: '0 m' },
  ]);
  document = withRows(document, 'pushes', [
    { hole: 'T2', seq: '1', push: 'P1', from: '0 m', to: '1 m', recovered: '0.95 m' },
  ]);
  document = withRows(document, 'samples', [
    {
      sample: 'A',
      hole: 'T1',
      depth_basis: 'run',
      run: 'R1',
      top: '0.42 m',
      bottom: '0.46 m',
      material: 'peat',
    },
    { sample: 'B', hole: 'T2', depth_basis: 'in_situ', top: '0.5 m', identifier: '10.58052/INVENTED1' },
  ]);
  document = withRows(document, 'planned_samples', [
    { sample: 'A', hole: 'T1', top: '3.6 m' },
    { sample: 'C', hole: 'T1', top: '3.6 m', bottom: '3.64 m', material: 'peat' },
    { sample: 'D', hole: 'T2', unit: 'base of peat', identifier: '10.58052/INVENTED2' },
  ]);
  const { campaign, problems } = parseCampaign(document);
  assert.deepEqual(
    problems.filter((p) => p.severity === 'error'),
    [],
  );
  // What is taken is planned no more; the label is the one the sample will have.
  assert.deepEqual(
    labelsOf(campaign, null, 'planned', null).map(({ name, lines, code }) => [name, lines, code]),
    [
      [
        'C',
        ['Hole T1', '3.60–3.64 m below ground', 'peat', 'labels'],
        labelCode(campaign.id, { kind: 'sample', sample: 'C' }),
      ],
      ['D', ['Hole T2', 'base of peat', 'labels'], '10.58052/INVENTED2'],
    ],
  );
  const samples = labelsOf(campaign, null, 'samples', null);
  assert.deepEqual(
    samples.map(({ name, lines }) => [name, lines[0], lines[1]]),
    [
      ['A', 'Hole T1, run R1', '0.42–0.46 m'],
      ['B', 'Hole T2', '0.50 m below ground'],
    ],
  );
  assert.equal(samples[1]!.code, '10.58052/INVENTED1');
  assert.deepEqual(
    labelsOf(campaign, null, 'cores', null).map(({ name, lines }) => [name, lines[1]]),
    [
      ['T1 R1', '0.80 m recovered'],
      ['T2 P1', '0.00–1.00 m below ground'],
    ],
  );
  assert.deepEqual(
    labelsOf(campaign, null, 'cores', 'T1').map(({ name }) => name),
    ['T1 R1'],
  );
});
