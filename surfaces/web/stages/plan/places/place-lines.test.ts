import assert from 'node:assert/strict';
import { test } from 'node:test';
import { gridOf } from '@stillstand/science/grids';
import { headingLine, type PlaceChoices, readPlaceLines, unreadHeadings } from './place-lines.ts';

const T1 = { label: 'T1', latitude_deg: -46.41, longitude_deg: -121.31 };
const choices: PlaceChoices = { unit: null, others: [T1], grid: null, taken: new Set(['T1']), chosen: {} };
const read = (text: string, more: Partial<PlaceChoices> = {}) =>
  readPlaceLines(text, { ...choices, ...more }).map(({ label, target, site, said, faults }) => ({
    label,
    at: [said.cells.latitude_deg, said.cells.longitude_deg].join(' '),
    target,
    site,
    faults: faults.length,
  }));

test('one hole a line, as it is written, in tabs, semicolons and commas, in degrees and UTM', () => {
  // 24.66′ is 0.411°, 18.78′ is 0.313°.
  const at = '-46.411 -121.313';
  const lines = [
    ['H1  46° 24.66′ S 121° 18.78′ W  target 12 m', { label: 'H1', at, target: '12 m', site: '' }],
    [
      'Hole 3 46 24.66 S 121 18.78 W to 40 ft site Neck marsh',
      { label: 'Hole 3', at, target: '40 ft', site: 'Neck marsh' },
    ],
    ['H1: −46.411, −121.313', { label: 'H1', at, target: '', site: '' }],
    ['H1\t46° 24.66′ S 121° 18.78′ W\t12.5 m\tNeck', { label: 'H1', at, target: '12.5 m', site: 'Neck' }],
    ['H1\t-46.411\t-121.313\tNeck', { label: 'H1', at, target: '', site: 'Neck' }],
    ['H1;-46,411;-121,313;12,5 m', { label: 'H1', at, target: '12.5 m', site: '' }],
    ['H1, -46.411, -121.313, 12 m, Neck', { label: 'H1', at, target: '12 m', site: 'Neck' }],
    ['H1,-46.411,-121.313,12 m', { label: 'H1', at, target: '12 m', site: '' }],
  ] as const;
  for (const [text, said] of lines) assert.deepEqual(read(text), [{ ...said, faults: 0 }], text);
  const [utm] = read('H1 10 south 475811 4860093 target 8 m');
  assert.match(utm!.at, /^-46\.41\d* -123\.31\d*$/);
  assert.equal(utm!.target, '8 m');
});

test('headings say which column is which, and the unit of the depth', () => {
  const text =
    'Longitude\tLatitude\tHole\tTarget depth (m)\tSite\n-121.313\t-46.411\tH1\t12\tNeck\n-121.312\t-46.411\tH2\t\t';
  assert.deepEqual(read(text), [
    { label: 'H1', at: '-46.411 -121.313', target: '12 m', site: 'Neck', faults: 0 },
    { label: 'H2', at: '-46.411 -121.312', target: '', site: '', faults: 0 },
  ]);
  const [utm] = read('core,easting,northing,zone\nH1,475811,4860093,10 south');
  assert.match(utm!.at, /^-46\.41\d* -123\.31\d*$/);
});

test('a depth without another word is the one to reach; columns that are not read are named', () => {
  const text = 'Name\tLatitude\tLongitude\tDepth (m)\tVegetation\nH1\t-46,411\t-121,313\t9,6\treed';
  assert.deepEqual(read(text), [
    { label: 'H1', at: '-46.411 -121.313', target: '9.6 m', site: '', faults: 0 },
  ]);
  assert.deepEqual(unreadHeadings(text), ['Vegetation']);
  assert.deepEqual(unreadHeadings('H1 46.411 S 121.313 W'), []);
  // Goes with the lines that are left: they are read by it.
  assert.equal(headingLine(`\n${text}`), text.split('\n')[0]);
  assert.equal(headingLine('H1 46.411 S 121.313 W'), null);
  // One cell of a pair is the whole position.
  assert.doesNotMatch(
    readPlaceLines('Name\tLatitude\tLongitude\nH1\tE 401234 N 712345\t', choices)[0]!.faults.join(),
    /712345,/,
  );
});

test('a bad line is named by what is wrong, and costs no other', () => {
  const text = [
    'H1 46 24.66 S 121 18.78 W target 12 m',
    'H2 46 61 S 121 18.78 W',
    'T1 46 24.66 S 121 18.78 W',
    'H3 46 24.66 S 121 18.78 W target 12',
    '46 24.66 S 121 18.78 W',
    '',
    'H1 46 24.60 S 121 18.70 W',
    'H5',
  ].join('\n');
  const said = readPlaceLines(text, choices).map(({ line, faults }) => [line, faults.join(' ')] as const);
  assert.deepEqual(
    said.map(([line]) => line),
    [1, 2, 3, 4, 5, 7, 8],
  );
  const expected = [
    /2 lines are labelled H1/,
    /below 60/,
    /T1 is there already/,
    /unit/,
    /No label/,
    /labelled H1/,
    /No position/,
  ];
  for (const [i, pattern] of expected.entries()) assert.match(said[i]![1], pattern);
  // The unit chosen for all makes the fourth good.
  assert.deepEqual(read('H3 46 24.66 S 121 18.78 W target 12', { unit: 'm' })[0]!.target, '12 m');
});

test('exchanged or far is named in its line and offered the other way; what is chosen is written', () => {
  const text = 'H1 -46.411 -121.313\nH2 -121.312 -46.412\nH3 46.411 S 121.3 E';
  const [, exchanged, far] = readPlaceLines(text, choices);
  assert.deepEqual(exchanged!.faults, []);
  assert.equal(exchanged!.said.cells.latitude_deg, '-46.412');
  assert.match(far!.said.cautions.join(' '), /the nearest of the others/);
  const other = far!.said.instead[0]!;
  assert.match(other.words, /other side of Greenwich/);
  const again = readPlaceLines(text, { ...choices, chosen: { [far!.text]: other.cells } });
  assert.equal(again[2]!.said.cells.longitude_deg, '-121.3');
  assert.deepEqual(again[2]!.said.cautions, []);
  // In a campaign without places the lines themselves are the others.
  const alone = readPlaceLines('H1 -46.41 -121.31\nH2 46.41 -121.31\nH3 -46.41 -121.32', {
    ...choices,
    others: [],
  });
  assert.match(alone[1]!.said.instead.at(-1)!.words, /other side of the equator/);
});

test('easting and northing are read in the grid of the campaign, in one cell or two, with headings or without', () => {
  const found = gridOf('EPSG:32710');
  assert.ok(found.ok);
  const { grid } = found;
  const lines = [
    'H1 E 475811 N 4860093 target 8 m',
    'H1\t475811\t4860093\t8 m',
    'Hole\tEasting\tNorthing\tTarget depth (m)\nH1\t475811\t4860093\t8',
  ];
  for (const text of lines) {
    const [line] = read(text, { grid, others: [] });
    assert.match(line!.at, /^-46\.412\d* -123\.314\d*$/, text);
    assert.deepEqual([line!.label, line!.target, line!.faults], ['H1', '8 m', 0], text);
  }
  assert.match(readPlaceLines(lines[0]!, choices)[0]!.faults.join(), /choose the national grid/);
});
