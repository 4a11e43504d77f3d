/**
 * The figures measure text from a table, so that they need no font files where they are drawn. This holds the table
 * to the font files; STILLSTAND_UPDATE=1 rewrites it.
 */
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { test } from 'node:test';
import './index.ts';
import { FEATURES, setWidth, TYPEFACE_NAMES, typeface } from '../typeset/typefaces.ts';

const TABLE = new URL('../drawing/advance-widths.ts', import.meta.url);

function characters(): string {
  let all = '';
  for (let code = 0x20; code < 0x7f; code++) all += String.fromCodePoint(code);
  for (let code = 0xa1; code <= 0x17f; code++) if (code !== 0xad) all += String.fromCodePoint(code);
  return `${all}ΔδσρΣ−–—‘’“”…‰√`;
}

function source(): string {
  const all = characters();
  const rows = TYPEFACE_NAMES.filter((name) => !name.startsWith('plain')).map((name) => {
    const { font } = typeface(name);
    const widths = [...all].map((c) =>
      font.hasGlyphForCodePoint(c.codePointAt(0) ?? 0)
        ? Math.round((font.layout(c, FEATURES).advanceWidth * 1000) / font.unitsPerEm)
        : Math.round(setWidth(c, name, 1000)),
    );
    return `  ${name}: [${widths.join(',')}],`;
  });
  return [
    '/** Advance widths in 1/1000 em, figures of equal width. Written from the font files by output/paper/advance-widths.test.ts. */',
    '// biome-ignore format: one row a face',
    `export const CHARACTERS = ${JSON.stringify(all)};`,
    '// biome-ignore format: one row a face',
    'export const ADVANCES = {',
    ...rows,
    '} as const;',
    '',
  ].join('\n');
}

test('advance widths of the figures are those of the font files', () => {
  const wanted = source();
  if (process.env['STILLSTAND_UPDATE'] === '1') writeFileSync(TABLE, wanted);
  assert.equal(readFileSync(TABLE, 'utf8'), wanted, 'run with STILLSTAND_UPDATE=1 and look at the figures');
});
