/** The check of words: what people read is read, names and comments are not, and trade uses stay allowed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inMarkdown, inSource } from './words.ts';

const words = (found: { line: number; word: string }[]): string[] => found.map((f) => `${f.line} ${f.word}`);

test('a banned word put into JSX text, a label, a message or a schema is found with its line', () => {
  const source = [
    "const a = { label: 'Mend', expected: 'a number' };",
    "fail('The row stands in no table.');",
    // The source under test holds a template of its own.
    ['fail(`hole $', '{name} was brought in`);'].join(''),
    'const b = <p title="Look whether it is there">',
    '  It hangs on',
    '  the datum.',
    '</p>;',
    "const c = column('note', 'text', 'what nobody measured');",
  ].join('\n');
  assert.deepEqual(words(inSource('a.tsx', source)).sort(), [
    '1 Mend',
    '2 stands in',
    '3 brought',
    '4 Look whether',
    '5 hangs on',
    '8 nobody',
  ]);
});

test('what to say instead comes with it', () => {
  assert.match(inSource('a.ts', "say('Reckon it again.');")[0]!.instead, /compute/);
});

test('names, values, comments, classes and modules are not read', () => {
  const source = [
    "import { told } from './told and brought.ts';",
    "type Kind = 'told' | 'Told';",
    '// Mend it: nobody looks whether it stands in there.',
    "if (kind === 'Told' || row['mend'] === 'mended') go({ fix: 1, 'Mended it': 2 });",
    'const b = <div className="brought beside" data-told="Told it" id="fix it" />;',
    "const css = '.beside{margin:0} .a .told{color:red}';",
    "switch (k) { case 'Told it': go(); }",
  ].join('\n');
  assert.deepEqual(words(inSource('a.tsx', source)), []);
});

test('prose of a page: code and targets of links are not read, a phrase may be broken by a line', () => {
  const page =
    'It hangs\non `mend` the [rest](beside.md).\n\n```sh\nmend beside\n```\n\nNobody measured it.\n';
  assert.deepEqual(words(inMarkdown('a.md', page)), ['1 hangs on', '8 Nobody']);
});

test('uses of the trade are left alone', () => {
  const page =
    'Nobody under the load. Nobody works alone. Stand clear; do not stand in the bight of a line. A stand of trees ' +
    'stood on the fen. Tell the harbour. Take a sounding. The block hangs on the hook. The sea stood at −5 m.';
  assert.deepEqual(words(inMarkdown('a.md', page)), []);
});
