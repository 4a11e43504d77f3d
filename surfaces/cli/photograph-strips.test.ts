/** `compute` with photographs: from a folder and from a zip, in figures and report; files that cannot be drawn are named. */
import assert from 'node:assert/strict';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, withRows, writeFiles, zipOf } from '@stillstand/campaign/document';
import { corePicture } from '../../output/photographs/fixtures/core-picture.ts';
import { decoded } from '../../output/photographs/fixtures/decoded.ts';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-photos-'));
after(() => rmSync(place, { recursive: true, force: true }));

const { png, strip } = corePicture([{ from_m: 0, to_m: 1, colour: '#40c040' }]);
const MARKED = {
  hole: 'H1',
  depth_basis: 'in_situ',
  top: '0 m',
  bottom: '1 m',
  mark_1: '0 m',
  mark_1_x_px: String(strip.mark_1.x_px),
  mark_1_y_px: String(strip.mark_1.y_px),
  mark_2: '1 m',
  mark_2_x_px: String(strip.mark_2.x_px),
  mark_2_y_px: String(strip.mark_2.y_px),
  strip_width: '70 mm',
  strip_offset: '-85 mm',
};
const HEIC = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1');

/** Files of a campaign whose photographs have these names. */
function campaign(files: readonly string[], more: readonly Record<string, string>[] = []) {
  let document = newDocument('photographed');
  document = withRows(document, 'holes', [{ hole: 'H1', method: 'hand' }]);
  document = withRows(document, 'units', [
    { hole: 'H1', unit: '1', depth_basis: 'in_situ', top: '0 m', bottom: '2 m', sediment: 'peat' },
  ]);
  const rows = [...files.map((file) => ({ ...MARKED, file })), ...more];
  return writeFiles(withRows(document, 'photos', rows));
}

function folder(name: string, files: Iterable<readonly [string, Uint8Array]>): string {
  for (const [path, bytes] of files) {
    mkdirSync(dirname(join(place, name, path)), { recursive: true });
    writeFileSync(join(place, name, path), bytes);
  }
  return join(place, name);
}

test('a photograph is in the figures and in the report, from a folder and from a zip alike', async () => {
  const files = new Map([...campaign(['photos/core.png']), ['photos/core.png', new Uint8Array(png)]]);
  const zip = join(place, 'one.zip');
  writeFileSync(zip, zipOf(files));
  const figures: string[] = [];
  for (const [i, from] of [folder('one', files), zip].entries()) {
    const out = join(place, `out-${i}`);
    const { code, err } = await said('compute', from, '--out', out, '--figures', 'svg,pdf,png');
    assert.equal(code, 0);
    assert.match(err, /note: report\.html has [\d.]+ MB with 1 photograph/);
    figures.push(readFileSync(join(out, 'figures/column-H1.svg'), 'utf8'));
    const html = readFileSync(join(out, 'report.html'), 'utf8');
    assert.match(html, /<image [^>]*href="data:image\/png;base64,/);
    // Nothing of the page is outside it.
    assert.doesNotMatch(html, /(?:href|src)="(?!#|data:|https:\/\/doi)[^"]*\.(?:png|jpe?g)"/);
    assert.match(readFileSync(join(out, 'figures/column-H1.pdf'), 'latin1'), /\/Subtype \/Image/);
  }
  assert.match(figures[0]!, /<image [^>]*href="data:image\/png;base64,/);
  assert.equal(figures[0], figures[1]);
});

test('in greys the strip is grey too, and the report keeps its colour', async () => {
  const from = folder('one', []);
  const out = join(place, 'grey');
  await said('compute', from, '--out', out, '--figures', 'svg', '--grey');
  const hrefOf = (text: string) => /data:image\/png;base64,[^"]+/.exec(text)![0];
  const printed = hrefOf(readFileSync(join(out, 'figures/column-H1.svg'), 'utf8'));
  const inReport = hrefOf(readFileSync(join(out, 'report.html'), 'utf8'));
  assert.equal(decoded(inReport).at(29, 50), '#40c040');
  // Luminance of sRGB values: 0.213 × 64 + 0.715 × 192 + 0.072 × 64 = 155.5.
  assert.match(decoded(printed).at(29, 50), /^#(9b|9c)\1\1$/);
});

test('files that are missing, HEIC, links or outside the campaign are named; the figure is drawn', async () => {
  const names = ['photos/gone.jpg', 'photos/a.heic', '../secret.png', 'photos/link.png', 'photos/text.jpg'];
  const from = folder('two', [
    ...campaign(names, [
      { hole: 'H1', depth_basis: 'in_situ', top: '1 m', bottom: '2 m', file: 'photos/uncut.jpg' },
    ]),
    ['photos/a.heic', HEIC],
    ['photos/text.jpg', Buffer.from('no picture')],
  ]);
  writeFileSync(join(place, 'secret.png'), png);
  symlinkSync(join(place, 'secret.png'), join(from, 'photos/link.png'));
  const out = join(place, 'out-two');
  const { code, err } = await said('compute', from, '--out', out, '--figures', 'svg');
  assert.equal(code, 0);
  for (const line of [
    /warning: Photograph of H1 \(photos\/gone\.jpg\) not drawn \(file not in the campaign\): add the file again/,
    /warning: Photograph of H1 \(photos\/a\.heic\) not drawn \(HEIC\): convert to JPEG/,
    /warning: Photograph of H1 \(\.\.\/secret\.png\) not drawn \(file not in the campaign\): add the file again/,
    /warning: Photograph of H1 \(photos\/link\.png\) not drawn \(file not in the campaign\): add the file again/,
    /warning: Photograph of H1 \(photos\/text\.jpg\) not drawn \(neither JPEG nor PNG\): convert to JPEG/,
    /note: 1 photograph without two marks/,
  ])
    assert.match(err, line);
  const svg = readFileSync(join(out, 'figures/column-H1.svg'), 'utf8');
  assert.doesNotMatch(svg, /<image/);
  assert.match(svg, /photos\/a\.heic/);
  assert.ok(readdirSync(join(out, 'figures')).length > 0);
});
