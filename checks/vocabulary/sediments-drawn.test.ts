/** What can be chosen and what is drawn: every sediment of the published vocabulary has its pattern, the same number. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { sedimentOf } from '@stillstand/output/drawing';
import { sediments } from '@stillstand/published/vocabularies';

for (const { word, fgdc_number, tint } of sediments) {
  test(`${word} is drawn as such, with pattern ${fgdc_number ?? 'of our own'}`, () => {
    const drawn = sedimentOf(word);
    assert.equal(drawn.fgdc, fgdc_number);
    assert.equal(drawn.tint, tint);
    // A word that is not known is drawn with queries under its own name.
    assert.equal(drawn.glyphs.includes('queries'), word === 'unknown');
  });

  test(`${word} is drawn the same however it is spelled`, () => {
    const [first = '', ...rest] = word.split(' ');
    const turned = rest.length === 0 ? first : `${rest.join(' ')}, ${first}`;
    for (const other of [word.toUpperCase(), word.replaceAll(' ', '_'), turned]) {
      assert.deepEqual(sedimentOf(other), sedimentOf(word), other);
    }
  });
}

test('two words are drawn alike only where the vocabulary says so', () => {
  const looks = new Map<string, string>();
  for (const { word } of sediments) {
    const { glyphs, tint } = sedimentOf(word);
    const look = `${glyphs.join(' ')} on ${tint}`;
    // Sand of no stated size is drawn as medium sand.
    if (word !== 'sand') assert.equal(looks.get(look), undefined, `${word} looks like ${looks.get(look)}`);
    looks.set(look, word === 'sand' ? (looks.get(look) ?? word) : word);
  }
});
