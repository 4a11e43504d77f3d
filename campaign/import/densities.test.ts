/** Tables of how probable each year is, as people send the age of a tephra or a horizon. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { withProposal } from './add.ts';
import { decided } from './decide.ts';
import { campaignOf, type Looked, lookedAt, rowsOf } from './fixtures/tables.ts';
import { hereOf } from './here.ts';
import { proposed } from './proposed.ts';

const EMPTY = campaignOf({ holes: [{ hole: 'C1', method: 'hand' }] });
const look = (content: string, document = EMPTY) => lookedAt(content, undefined, {}, document);
const curve = (looked: Looked): [string, string, string][] =>
  rowsOf(looked, 'age_densities').map((row) => [
    row['density'] ?? '',
    row['age_cal_bp'] ?? '',
    row['weight'] ?? '',
  ]);
const problems = ({ proposal }: Looked) =>
  proposal.problems.map(({ line, code, found }) => [line, code, found]);
const asked = ({ proposal }: Looked) => proposal.decisions.map(({ where, taken }) => [where, taken]);

/** The same with what a person decides. */
function said(looked: Looked, words: Readonly<Record<string, string>>, document = EMPTY): Looked {
  let { mapping } = looked;
  for (const [where, word] of Object.entries(words)) {
    const read = decided(mapping, where, word);
    assert.ok('mapping' in read, JSON.stringify(read));
    mapping = read.mapping;
  }
  return { ...looked, mapping, proposal: proposed(hereOf(document), looked.sheet, mapping) };
}

test('years BP and a probability: its name is asked, and no row is added before', async () => {
  const looked = await look('Age (cal BP),Probability\n2449,0.1\n2450,0.3\n2451,0.2\n');
  assert.equal(looked.mapping.as, 'age-densities');
  assert.deepEqual(asked(looked), [['fixed.density', null]]);
  assert.deepEqual(curve(looked), []);
  assert.deepEqual(curve(said(looked, { density: 'Grey ash' })), [
    ['Grey ash', '2449', '0.1'],
    ['Grey ash', '2450', '0.3'],
    ['Grey ash', '2451', '0.2'],
  ]);
});

test('decimal commas, thousands of years, comments, unsorted; what else a line says is in its note', async () => {
  const looked = await look(
    '# made for the ash\nAge (ka);Density;Run\n2,450;1,5e-3;b\n2,400;0,25;a\n2,500;0,5;c\n',
  );
  assert.equal(looked.mapping.decimal_comma, true);
  assert.equal(looked.proposal.lines[0]?.outcome, 'set_aside');
  const rows = rowsOf(said(looked, { density: 'Ash' }), 'age_densities');
  assert.deepEqual(
    rows.map((row) => [row['age_cal_bp'], row['weight'], row['note']]),
    [
      ['2450.000', '1.5e-3', 'Run: b'],
      ['2400.000', '0.25', 'Run: a'],
      ['2500.000', '0.5', 'Run: c'],
    ],
  );
});

test('years CE and BCE are years before 1950, there being no year 0', async () => {
  const ce = await look('Tephra,Year CE,Probability\nA,1362,1\nA,1,2\n');
  assert.deepEqual(curve(ce), [
    ['A', '588', '1'],
    ['A', '1949', '2'],
  ]);
  assert.deepEqual(asked(ce), []);
  const bce = await look('Tephra,Year BCE,Probability\nA,1,1\nA,501,2\nA,-3,1\n');
  assert.deepEqual(curve(bce), [
    ['A', '1950', '1'],
    ['A', '2450', '2'],
  ]);
  assert.deepEqual(problems(bce), [[4, 'year-bce-below-one', '-3']]);
  assert.deepEqual(curve(await look('Tephra,Age b2k,Probability\nA,2500,1\nA,40,1\n')), [
    ['A', '2450', '1'],
    ['A', '-10', '1'],
  ]);
});

test('an era in the cell is read before that of the heading', async () => {
  const looked = await look(
    'Tephra,Calendar year,Probability\nA,AD 120,1\nA,120 CE,1\nB,44 BCE,2\nB,44 b.c.,2\nC,2450 cal BP,3\nC,12 bananas,3\n',
  );
  assert.deepEqual(curve(looked), [
    ['A', '1830', '1'],
    ['B', '1993', '2'],
    ['C', '2450', '3'],
  ]);
  // The second of either is the first said again.
  assert.deepEqual(
    looked.proposal.lines.flatMap(({ line, outcome, why }) =>
      outcome === 'set_aside' ? [`${line} ${why}`] : [],
    ),
    [
      '1 headings',
      '3 the year of line 2 again, with its weight',
      '5 the year of line 4 again, with its weight',
    ],
  );
  assert.deepEqual(problems(looked), [[7, 'wrong-unit', '12 bananas']]);
});

test('years below 0: the year 0 is asked for, unless it stands among them', async () => {
  const table = (last: string) => `Name,Year (BCE/CE),p\nA,-100,1\nA,-50,2\nA,${last},1\n`;
  const looked = await look(table('20'));
  assert.deepEqual(asked(looked), [['fixed.year_zero', 'no']]);
  // 100 BCE is 1949 + 100.
  assert.deepEqual(curve(looked)[0], ['A', '2049', '1']);
  assert.deepEqual(curve(said(looked, { year_zero: 'yes' }))[0], ['A', '2050', '1']);
  assert.deepEqual(curve(said(looked, { year_zero: 'yes' }))[2], ['A', '1930', '1']);
  const withZero = await look(table('0'));
  assert.deepEqual(asked(withZero), []);
  assert.deepEqual(curve(withZero)[0], ['A', '2050', '1']);
  assert.deepEqual(curve(withZero)[2], ['A', '1950', '1']);
});

test('a heading that does not say how it counts is asked', async () => {
  const looked = await look('Name,Age,Weight\nA,450,1\nA,460,2\n');
  assert.deepEqual(asked(looked), [['columns.B.to', 'age_cal_bp']]);
  assert.deepEqual(curve(said(looked, { 'columns.B.to': 'age_ce' })), [
    ['A', '1500', '1'],
    ['A', '1490', '2'],
  ]);
});

test('years BP and CE in one line must be the same year', async () => {
  const looked = await look('Name,cal BP,Year CE,p\nA,588,1362,1\nA,587,1363,2\nA,586,1346,1\n');
  assert.equal(curve(looked).length, 2);
  assert.deepEqual(problems(looked), [[4, 'years-differ', '1346, which is 604 cal BP']]);
});

test('years left out of equal steps: straight until somebody says that they are 0', async () => {
  const years = [2440, 2441, 2442, 2443, 2450, 2451, 2452, 2454, 2455, 2456, 2457, 2458];
  const looked = await look(`Name,cal BP,p\n${years.map((year) => `A,${year},0.2\n`).join('')}`);
  assert.deepEqual(asked(looked), [['fixed.gaps', 'straight']]);
  assert.match(looked.proposal.decisions[0]!.question, /between 2443 to 2450, 2452 to 2454 cal BP/);
  assert.equal(curve(looked).length, years.length);
  const zero = curve(said(looked, { gaps: 'zero' }));
  assert.deepEqual(
    zero.filter(([, , weight]) => weight === '0').map(([, age]) => age),
    ['2444', '2449', '2453'],
  );
  assert.equal(zero.length, years.length + 3);
});

test('a negative density is named and its line left out; the year is no gap for it', async () => {
  const years = [10, 11, 12, 13, 14, 15];
  const looked = await look(
    `Name,cal BP,p\n${years.map((year) => `A,${year},${year === 13 ? '-0.02' : '0.2'}\n`).join('')}`,
  );
  assert.deepEqual(problems(looked), [[5, 'density-below-zero', '-0.02']]);
  assert.deepEqual(asked(looked), []);
  assert.equal(curve(looked).length, 5);
});

test('a year said twice: the same once, another weight named', async () => {
  const looked = await look('Name,cal BP,p\nA,10,0.2\nA,11,0.3\nA,10.0,0.20\nA,11,0.4\nB,11,0.4\n');
  assert.deepEqual(curve(looked), [
    ['A', '10', '0.2'],
    ['A', '11', '0.3'],
    ['B', '11', '0.4'],
  ]);
  assert.deepEqual(problems(looked), [[5, 'year-twice', '11 cal BP with 0.4']]);
  assert.match(looked.proposal.problems[0]!.expected, /line 3 has it with 0\.3/);
});

test('once more brings nothing; a curve of the same name with other weights is named', async () => {
  const table = 'Name,cal BP,p\nA,10,0.2\nA,11,0.3\n';
  const there = withProposal(EMPTY, (await look(table)).proposal);
  const again = await look(table, there);
  assert.deepEqual(again.proposal.rows, []);
  assert.ok(again.proposal.lines.slice(1).every(({ outcome }) => outcome === 'set_aside'));
  const other = await look('Name,cal BP,p\nA,10,0.2\nA,11,0.9\n', there);
  assert.deepEqual(problems(other), [[3, 'year-twice', '11 cal BP with 0.9']]);
  assert.match(other.proposal.problems[0]!.expected, /the campaign has it with 0\.3/);
});

test('a column for each curve, named by its heading', async () => {
  const looked = await lookedAt(
    'Year (CE),Red ash,Grey ash\n1362,0.2,\n1363,0.5,0.1\n1364,,0.7\n',
    'age-densities',
    {},
    EMPTY,
  );
  assert.deepEqual(curve(looked), [
    ['Red ash', '588', '0.2'],
    ['Red ash', '587', '0.5'],
    ['Grey ash', '587', '0.1'],
    ['Grey ash', '586', '0.7'],
  ]);
  assert.deepEqual(asked(looked), []);
});

test('what is missing or no number is named, the rest used', async () => {
  const looked = await look('Name,cal BP,p\nAsh,10,0.2\nAsh,,0.3\nAsh,12,lost\nAsh,n/a,\nAsh,13,\n,14,0.1\n');
  assert.deepEqual(curve(looked), [['Ash', '10', '0.2']]);
  assert.deepEqual(problems(looked), [
    [3, 'missing', ''],
    [4, 'not-a-number', 'lost'],
    // Neither a year nor a weight.
    [5, 'missing', ''],
    [5, 'missing', ''],
    [6, 'missing', ''],
    [7, 'missing', ''],
  ]);
});

test('our own table is read as it is, and what was added is an age of the campaign', async () => {
  const looked = await look('density,age_cal_bp,weight,source\nA,10,0.2,a paper\nA,12,0.4,a paper\n');
  assert.equal(looked.mapping.as, 'age-densities');
  const { campaign } = parseCampaign(withProposal(EMPTY, looked.proposal));
  assert.deepEqual(
    campaign.rows.age_densities.map((row) => [row.density, row.age_cal_bp, row.weight, row.source]),
    [
      ['A', 10, 0.2, 'a paper'],
      ['A', 12, 0.4, 'a paper'],
    ],
  );
});

test('tables of names and ages, and of densities of sediment, are none of these', async () => {
  assert.notEqual((await look('Name,Age\nA,10\n')).mapping.as, 'age-densities');
  assert.notEqual(
    (await look('Sample,Depth (cm),Dry density (g/cm3)\nA,10,0.4\n')).mapping.as,
    'age-densities',
  );
});
