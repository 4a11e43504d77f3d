/** Sediments and colours in people's own words, those of a published table among them, from the cell to all that shows them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { parseCampaign, readCsv, readFiles } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import { hasNoPattern } from '@stillstand/output/drawing';
import { ageDepthFigure, graphicLog, sectionFigure } from '@stillstand/output/figures';
import { resultTables } from '@stillstand/output/report';

/** Of the samples of Turck 2014: textures, as they are in the file. */
const published = readCsv(
  readFileSync(new URL('../import/data/turck_sediment.csv', import.meta.url), 'utf8'),
)!;
const textures = published.rows
  .filter(({ cells }) => cells[0]?.startsWith('MT'))
  .map(({ cells }) => cells[10] ?? '')
  .filter((cell) => cell !== '');
const SEDIMENTS = [
  ...new Set(textures),
  'marsh mud',
  'green-grey clay',
  'sandy mud',
  'shelly sandy clay with wood',
  'organic-rich silt',
  'marl with sand',
];
const COLOURS = SEDIMENTS.map((_, i) => `10YR ${i + 2}/${(i % 3) + 1}, "olive"`);

const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`;
const units = SEDIMENTS.map((sediment, i) =>
  ['A', i + 1, 'in_situ', `${i} m`, `${i + 1} m`, sediment, COLOURS[i]!, 'said of it']
    .map((cell) => quoted(String(cell)))
    .join(','),
);
const bytes = (text: string) => new TextEncoder().encode(text);

function described(table: string): Results {
  const files = new Map([
    ['datums.csv', bytes('datum,kind\nZero,local\n')],
    [
      'holes.csv',
      bytes('hole,method,reference_elevation_m,reference_sigma_m,reference_datum\nA,string,2,0.01,Zero\n'),
    ],
    ['units.csv', bytes(table)],
  ]);
  const { document, problems } = readFiles(files);
  const { campaign, problems: unparsed } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, [...problems, ...unparsed], { withCurve: false }).results;
}
const results = described(`hole,unit,depth_basis,top,bottom,sediment,colour,note\n${units.join('\n')}\n`);

/** Text of a drawing, its lines joined. */
const textOf = (svg: string): string =>
  svg
    .replace(/<desc>.*?<\/desc>/gs, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replace(/\s+/g, ' ')
    .toLowerCase();
const namesOf = (text: string): string[] => SEDIMENTS.filter((word) => !text.includes(word.toLowerCase()));

test('the published words are there to be tried', () => {
  for (const word of ['Sandy Clay Loam', 'Loamy Sand', 'Clay']) assert.ok(SEDIMENTS.includes(word), word);
});

test('in the results and their tables every word and colour is whole', () => {
  const described = results.holes[0]!.units;
  assert.deepEqual(
    described.map((unit) => unit.sediment),
    SEDIMENTS,
  );
  assert.deepEqual(
    described.map((unit) => unit.colour),
    COLOURS,
  );
  const table = readCsv(resultTables(results).get('units.csv')!)!;
  const column = (name: string) => table.rows.map((row) => row.cells[table.columns.indexOf(name)]);
  assert.deepEqual(column('sediment'), SEDIMENTS);
  assert.deepEqual(column('colour'), COLOURS);
});

test('the drawn column has every word and colour whole', () => {
  const text = textOf(graphicLog(results, 'A').svg);
  assert.deepEqual(namesOf(text), []);
  for (const colour of COLOURS) assert.ok(text.includes(colour.toLowerCase()), colour);
});

test('the section has every word in its legend', () => {
  assert.deepEqual(namesOf(textOf(sectionFigure(results).svg)), []);
});

test('a layer described in two runs has what is said in either', () => {
  const pieces = [
    'A,1,in_situ,0 m,1 m,sandy mud,10YR 3/2,wood,swamp,soft',
    'A,1,in_situ,1 m,2 m,sandy mud,10YR 4/2,,,firm',
    'A,1,in_situ,2 m,3 m,sandy mud,10YR 3/2,shells,swamp,soft',
  ];
  const [layer, ...others] = described(
    `hole,unit,depth_basis,top,bottom,sediment,colour,secondary_sediment,environment,note\n${pieces.join('\n')}\n`,
  ).holes[0]!.units;
  assert.equal(others.length, 0);
  assert.equal(layer!.colour, '10YR 3/2; 10YR 4/2');
  assert.equal(layer!.secondary_sediment, 'wood; shells');
  assert.equal(layer!.environment, 'swamp');
  assert.equal(layer!.description, 'soft; firm');
});

test('a colour in a described layer is drawn together with what is said of it', () => {
  assert.match(textOf(graphicLog(results, 'A').svg), /10yr 2\/1, "olive"\. said of it\./);
});

test('what has no pattern is named under the figure, and nothing else', () => {
  const without = SEDIMENTS.filter(hasNoPattern);
  assert.deepEqual(
    without.toSorted(),
    ['Clay Loam', 'Sandy Clay Loam', 'Sandy Loam', 'marl with sand'].toSorted(),
  );
  const expected = `for them: ${without.join('; ')}.`;
  for (const figure of [graphicLog(results, 'A'), ageDepthFigure(results, 'A')])
    assert.ok(figure.svg.includes(expected), figure.name);
});
