/** Figures for a journal from the command line: what is read of its words, and the files it writes. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { readWords, WrongUse } from './command.ts';
import { compute } from './commands/compute.ts';
import { figureChoices } from './figure-choices.ts';

const LAUNCHER = fileURLToPath(new URL('stillstand.js', import.meta.url));
const DEMO = fileURLToPath(new URL('../../demo/campaign', import.meta.url));
const place = mkdtempSync(join(tmpdir(), 'stillstand-figures-'));
after(() => rmSync(place, { recursive: true, force: true }));

const read = (...words: string[]) => figureChoices(readWords(compute, ['folder', ...words]));

test('figures are as they were where nothing is asked of them', () => {
  const { kinds, dots_per_inch, options } = read();
  assert.deepEqual(kinds, ['svg', 'png', 'pdf']);
  assert.equal(dots_per_inch, undefined);
  assert.deepEqual(options, { journal: false, grey: false, axes: {} });
});

test('every choice is read', () => {
  const all =
    '--figures pdf --width 140 --dpi 300 --journal --grey --decimals comma --ages ce --rates cm/century --older right --oldest 9000 --youngest -50 --highest 2 --lowest -12.5';
  assert.deepEqual(read(...all.split(' ')), {
    kinds: ['pdf'],
    dots_per_inch: 300,
    options: {
      width_mm: 140,
      decimals: 'comma',
      journal: true,
      grey: true,
      axes: {
        ages: 'ce',
        rates: 'cm/century',
        older: 'right',
        oldest_cal_bp: 9000,
        youngest_cal_bp: -50,
        highest_m: 2,
        lowest_m: -12.5,
      },
    },
  });
});

test('wrong use names the option, what was found and what was expected', () => {
  const wrong: [string, RegExp][] = [
    ['--figures tiff', /--figures: found “tiff”, expected svg, png, pdf/],
    ['--width 40', /--width: found 40, expected 60 to 250/],
    ['--width wide', /--width: found “wide”, expected a number/],
    ['--dpi 72', /--dpi: found 72, expected 300 or 600/],
    ['--decimals dot', /--decimals: found “dot”, expected point, comma/],
    ['--ages ad', /--ages: found “ad”, expected bp, ce, ka/],
    ['--rates m/yr', /--rates: found “m\/yr”, expected mm\/yr, cm\/century, m\/kyr/],
    ['--older up', /--older: found “up”, expected left, right/],
    ['--oldest 2000 --youngest 3000', /expected the oldest above the youngest, found 2,000 and 3,000 cal BP/],
    ['--highest -5 --lowest 1', /expected the highest above the lowest, found −5.00 and 1.00 m/],
  ];
  for (const [words, says] of wrong) {
    assert.throws(
      () => read(...words.split(' ')),
      (error) => error instanceof WrongUse && says.test(error.message),
      words,
    );
  }
});

/** pHYs of a PNG by its own chunk's place: dots to the metre, and their unit. */
function dotsPerMetre(png: Buffer): [number, number, number] {
  const at = png.indexOf('pHYs', 8, 'latin1') + 4;
  return [png.readUInt32BE(at), png.readUInt32BE(at + 4), png.readUInt8(at + 8)];
}

test('compute writes a journal’s figures at their width, with their dots, and the captions apart', () => {
  const campaign = join(place, 'campaign');
  // No point, so no curve: the figures of the holes are enough, and take no minute.
  cpSync(DEMO, campaign, { recursive: true, filter: (path) => !/point(s|_errors)\.csv$/.test(path) });
  const out = join(place, 'out');
  const { status, stderr } = spawnSync(
    process.execPath,
    [LAUNCHER, 'compute', campaign, '--out', out, '--journal', '--width', '90', '--dpi', '600', '--grey'],
    { encoding: 'utf8' },
  );
  assert.ok(status === 0 || status === 1, stderr);
  const files = readdirSync(join(out, 'figures'));
  const captions = readFileSync(join(out, 'figures/captions.txt'), 'utf8');
  const names = files.filter((name) => name.endsWith('.svg')).map((name) => name.slice(0, -4));
  assert.ok(names.length > 15, names.join(' '));
  for (const name of names) {
    assert.match(captions, new RegExp(`^${name}\nFigure \\d+\\. `, 'm'));
    const png = readFileSync(join(out, 'figures', `${name}.png`));
    assert.equal(png.readUInt32BE(16), Math.round((90 * 600) / 25.4), name);
    assert.deepEqual(dotsPerMetre(png), [23622, 23622, 1]);
    const [, width] = /MediaBox \[0 0 ([\d.]+)/.exec(
      readFileSync(join(out, 'figures', `${name}.pdf`), 'latin1'),
    )!;
    assert.ok(Math.abs(Number(width) - (90 * 72) / 25.4) < 0.02, `${name}: ${width}`);
  }
  assert.equal(captions.match(/^Figure \d+\. /gm)?.length, names.length);
});
