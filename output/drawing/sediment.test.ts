/** A sediment in a user's own words: kept whole, drawn by its main constituent, never as another sediment. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { hasNoPattern, sedimentOf, sedimentOfUnit } from './sediment.ts';

const said = (sediment: string, secondary_sediment: string | null = null) => {
  const { name, tint, glyphs } = sedimentOfUnit({ sediment, secondary_sediment });
  return `${name} | ${tint}: ${glyphs.join(' ')}`;
};

test('the last noun is drawn, what qualifies it is added, the words are kept', () => {
  const expected: [string, string][] = [
    ['sandy mud', 'Sandy mud | silt: silty_clay_lines sparse_dots'],
    ['muddy sand', 'Muddy sand | sand: dots'],
    ['shelly sandy clay with wood', 'Shelly sandy clay with wood | clay: clay_lines sparse_dots shells'],
    ['organic-rich silt', 'Organic-rich silt | silt: silt_lines sparse_tufts'],
    ['marsh mud', 'Marsh mud | silt: silty_clay_lines'],
    ['10YR 3/2 silty clay', '10YR 3/2 silty clay | clay: silty_clay_lines'],
    ['grey, soft, silty clay', 'Grey, soft, silty clay | clay: silty_clay_lines'],
    ['Clay, silty, grey', 'Clay, silty, grey | clay: silty_clay_lines'],
    ['fine to medium sand', 'Fine to medium sand | sand: dots'],
    ['very fine sand', 'Very fine sand | sand: fine_dots'],
    ['sand with fine gravel', 'Sand with fine gravel | sand: dots sparse_stones'],
    ['shells in sandy mud', 'Shells in sandy mud | silt: silty_clay_lines sparse_dots shells'],
    ['sand/silt', 'Sand/silt | sand: dots'],
    ['peat?', 'Peat? | peat: tufts'],
    ['Loamy Sand', 'Loamy Sand | sand: dots'],
    // A nomenclature of poorly sorted sediments (J. Sed. Petrology 33:478): 40 % silt, 30 % gravel, 20 % sand, 10 % clay.
    ['clayey-sandy-gravelly silt', 'Clayey-sandy-gravelly silt | silt: sandy_silt_lines sparse_stones'],
  ];
  for (const [words, drawn] of expected) assert.equal(said(words), drawn);
});

test('what is drawn as another name for a sediment keeps its own', () => {
  assert.equal(sedimentOf('gyttja').name, 'Gyttja');
  assert.equal(sedimentOf('boulder clay').name, 'Boulder clay');
  assert.equal(sedimentOf('boulder clay').tint, 'till');
  assert.equal(sedimentOf('fill').name, 'Fill');
});

test('what is not known is unknown by its own name, though a sediment is among its words', () => {
  const names = [
    'mud breccia',
    'marl with sand',
    'Sandy Clay Loam',
    'channel fill',
    'no recovery',
    'Ил',
    '???',
  ];
  for (const words of [...names, 'sand stone', 'constructor', 'sandy']) {
    assert.equal(sedimentOf(words).tint, 'unknown', words);
    assert.equal(sedimentOf(words).name.toLowerCase(), words.toLowerCase());
    assert.ok(hasNoPattern(words), words);
  }
  for (const words of ['unknown', '', 'sandy mud', 'fill']) assert.ok(!hasNoPattern(words), words);
});

test('what is said not to be there is not drawn', () => {
  for (const words of ['sand-free clay', 'clay without shells', 'Clay, no shells'])
    assert.deepEqual(sedimentOf(words).glyphs, ['clay_lines'], words);
});

test('the second sediment is whole in the name and drawn where it has a sign', () => {
  assert.equal(said('sandy mud', 'shells'), 'Sandy mud, shelly | silt: silty_clay_lines sparse_dots shells');
  assert.equal(said('peat', 'fine sand'), 'Peat, fine sand | peat: tufts sparse_dots');
  // Coarse is the second, not the first.
  assert.equal(said('sand', 'coarse sand'), 'Sand, coarse sand | sand: dots sparse_dots');
  assert.equal(said('clay', 'oysters'), 'Clay, oysters | clay: clay_lines');
  assert.equal(said('gravel', 'sand'), 'Gravel, sandy | gravel: stones dots');
});
