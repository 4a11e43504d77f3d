import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { SAFETY_QUESTIONS } from '@stillstand/campaign/holes';
import { type Column, schemas } from '@stillstand/campaign/tables';
import { type Catalogue, messagesIn, messagesOfTheRig } from './messages.ts';

const root = join(import.meta.dirname, '..');
const { messages, bare } = messagesOfTheRig();
const catalogues = globSync('surfaces/web/language/*.json', { cwd: root }).map((file) => ({
  file,
  ...(JSON.parse(readFileSync(join(root, file), 'utf8')) as Catalogue),
}));

test('every word that is read on the rig goes through the catalogue', () => {
  assert.deepEqual(bare, []);
});

test('words outside the catalogue are found, and values and names are not', () => {
  const source = `
    const label = 'Stick-up after';
    const kind = 'before_drive';
    export const A = () => <p className="say louder" title="Read it again">Lift the sampler {label} {t\`Run \${kind}\`}</p>;
  `;
  const found = messagesIn('a.tsx', source);
  assert.deepEqual(found.bare.map(({ words }) => words).sort(), [
    'Lift the sampler',
    'Read it again',
    'Stick-up after',
  ]);
  assert.deepEqual(
    found.messages.map(({ words }) => words),
    ['Run {0}'],
  );
});

test('there is a catalogue', () => {
  assert.ok(catalogues.length > 0);
});

for (const { file, app, rooms } of catalogues) {
  const placesOf = (words: string): string[] => (words.match(/\{\d+\}/g) ?? []).sort();

  test(`${file}: each message once, none too many`, () => {
    const keys = new Set(messages.map((m) => m.words));
    assert.deepEqual(
      [...keys].filter((key) => !(app[key] ?? '')),
      [],
      'missing',
    );
    assert.deepEqual(
      Object.keys(app).filter((key) => !keys.has(key)),
      [],
      'said nowhere',
    );
  });

  test(`${file}: what is filled in has its place in both languages`, () => {
    for (const [english, said] of [...Object.entries(app), ...Object.entries(rooms)])
      assert.deepEqual(placesOf(said), placesOf(english), english);
  });

  test(`${file}: every safety question, with its hazard and what to do`, () => {
    const said = SAFETY_QUESTIONS.flatMap(({ question, why, hazard, act, deal }) => [
      question,
      why,
      hazard,
      act,
      deal,
    ]);
    assert.deepEqual(
      said.filter((words) => rooms[words] === undefined),
      [],
    );
  });

  test(`${file}: every word that can be chosen for a reading`, () => {
    const tables = [
      'holes',
      'string_items',
      'drives',
      'soundings',
      'water_added',
      'runs',
      'checks',
      'events',
      'instrument_checks',
      'pipe_stock',
    ] as const;
    // how an amendment was made is never shown as a word
    const said = tables.flatMap((table) =>
      Object.entries(schemas[table].columns as Record<string, Column>).flatMap(([name, column]) =>
        name === 'amend_kind' || !('choices' in column) ? [] : (column.choices as readonly string[]),
      ),
    );
    assert.deepEqual(
      [...new Set(said)].filter((word) => rooms[word.replaceAll('_', ' ')] === undefined),
      [],
    );
  });

  test(`${file}: what other rooms say is still said there, word by word`, () => {
    const sources = globSync('{campaign,science,output,surfaces/web}/**/*.{ts,tsx}', {
      cwd: root,
      exclude: (path) => /(^|\/)(?:node_modules|browser)$/.test(path),
    }).filter((path) => !/\.test\.tsx?$/.test(path));
    const said = new Set(
      sources.flatMap((path) => readFileSync(join(root, path), 'utf8').match(/[A-Za-z]{3,}/g) ?? []),
    );
    const gone = Object.keys(rooms).filter((english) =>
      (english.match(/[A-Za-z]{3,}/g) ?? []).some(
        (word) => !said.has(word) && !said.has(word.replace(/s$/, '')),
      ),
    );
    assert.deepEqual(gone, []);
  });
}
