import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { CampaignPipe } from '@stillstand/campaign/holes';
import { curveOf, type Results, withCurve } from '@stillstand/campaign/results';
import { datesFigure } from '@stillstand/output/figures';
import { coastThroughTime } from '../figures/fixtures/environments.ts';
import { HOSTILE, tinyResults, tinyResultsWithDraws } from './fixtures/results.ts';
import { inlined, type ReportFigure } from './placing.tsx';
import { reportHtml } from './report.tsx';
import { resultTables } from './tables.ts';
import type { WhereFrom } from './where/where-from.ts';

const page = (results: Results, figures: readonly ReportFigure[] = []) =>
  reportHtml(results, figures, { fontCss: '@font-face{font-family:"none"}' });

/** What a reader sees: the text of the body, tags taken out. */
const textOf = (html: string) =>
  html
    .slice(html.indexOf('<body'))
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&#x27;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');

/** The same results with every text and number changed. Words the shape fixes stay. */
function changed<T>(value: T, text: (t: string) => string, number: (n: number) => number, name = ''): T {
  const fixed = ['kind', 'status', 'severity', 'shape', 'method', 'removed_from', 'format', 'model', 'code'];
  if (typeof value === 'string') return (fixed.includes(name) ? value : text(value)) as T;
  if (typeof value === 'number')
    return (['line', 'seed', 'version'].includes(name) ? value : number(value)) as T;
  if (value instanceof Float64Array) return value.map(number) as T;
  if (Array.isArray(value)) return value.map((item) => changed(item, text, number, name)) as T;
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, item]) => [key, changed(item, text, number, key)]);
  return Object.fromEntries(entries) as T;
}

test('whatever stands in a cell is text on the page', () => {
  const hostile = '</style></title><script>x</script><img src=x onerror=x>"\'&';
  const results = changed(
    tinyResults(),
    (text) => text + hostile,
    (n) => n,
  );
  const figures = [{ name: 'curve', svg: '<svg></svg>', caption: hostile }];
  const html = page(results, figures);
  assert.ok(!/<script|<img|onerror=x>/i.test(html.replaceAll('&lt;', '')), 'a tag came through');
  assert.equal(html.match(/<\/style>/g)?.length, 1);
  assert.equal(html.match(/<\/title>/g)?.length, 1);
  assert.ok(textOf(page(tinyResults())).includes(`Rejected: reworked ${HOSTILE}`));
});

test('what is kept and used by nothing is stated with what the numbers were made from', () => {
  const results = tinyResults();
  const problem = { severity: 'note', row_id: null, line: null, label: null, expected: '', fix: '' } as const;
  const unused = [
    { ...problem, code: 'not-used-yet', table: 'measurements', column: null, found: '17 rows' },
    { ...problem, code: 'not-used-yet', table: 'units', column: 'facies', found: '3 filled in' },
  ];
  const text = textOf(page({ ...results, problems: [...results.problems, ...unused] }));
  assert.match(
    text,
    /used by no computation, figure or table yet: units, smell \(smell\); measurements \(17 rows\); units, facies \(3 filled in\)/,
  );
  assert.doesNotMatch(textOf(page({ ...results, problems: [] })), /used by no computation/);
});

test('the page runs nothing and loads nothing', () => {
  const html = page(tinyResults());
  assert.match(
    html,
    /<meta http-equiv="Content-Security-Policy" content="default-src &#x27;none&#x27;;[^"]*"\/>/i,
  );
  assert.ok(!/script-src|https?:(?!\/\/www\.w3\.org)|<link|<iframe| src=/.test(html));
  assert.ok(html.startsWith('<!doctype html>\n<html lang="en">'));
  const closed = reportHtml(tinyResults(), [], { fontCss: 'a{}</style><script>' });
  assert.equal(closed.match(/<\/style>/g)?.length, 1);
});

test('the page says what was found, its decimals from the uncertainty, signs shown', () => {
  const text = textOf(page(tinyResults()));
  for (const words of [
    'Rate, 8,000 to 7,000 cal BP +4.25 mm/yr ±0.48',
    '95 % +3.78 to +4.72 mm/yr. The sea rose 4.25 m in 1,000 years.',
    'at the oldest age 8,000 −11.45 −12.06 to −10.84',
    'Converged : largest R-hat 1.004, at least 640 effective draws',
    '8,000 to 7,000 +4.25 ±0.48 +3.78 to +4.72 +4.21, +4.28',
    '2,000 to 0 −0.10 ±0.40 −0.49 to +0.29 –, –',
    '2,000 to 0 −0.10 ±0.40 −0.49 to +0.29 −0.11 −0.14 −0.20',
    'danger: runs, A1 R3, cable mark at the end',
    'above −1.02 ±0.06',
    '7,550 to 7,330 (81)',
    '4.0 % of the distribution lies beyond the end of the curve',
    'shoe S1; joints J1, J2 and 1 without a label',
    '± is 2 sd, here and below',
  ]) {
    assert.ok(text.includes(words), `${words} is not on the page`);
  }
  // The gravest problem first.
  assert.ok(
    text.indexOf('danger: ') < text.indexOf('error: ') && text.indexOf('error: ') < text.indexOf('warning: '),
  );
  assert.equal(text.match(/± is 2 sd/g)?.length, 2, 'once on top, once where the methods define it');
});

test('methods describe and cite what was used, and only that', () => {
  const all = textOf(page(tinyResults()));
  assert.match(all, /SHCal20 \(Hogg et al. 2020\), Marine20 \(Heaton et al. 2020\)/);
  assert.match(all, /half-normal with scale 5.0 mm\/yr/);
  assert.match(all, /sea level 0 ± 0.05 m \(1 sd\) in 2002 CE/);
  assert.ok(!all.includes('Reimer'), 'no date was calibrated on IntCal20');
  const results = tinyResults();
  const dates = results.dates.filter((date) => date.curve !== 'marine20');
  const settings = { ...curveOf(results)!.settings, tie: null };
  const without = textOf(page(withCurve({ ...results, dates }, { ...curveOf(results)!, settings })));
  assert.ok(!without.includes('Heaton'));
  assert.match(without, /no tie at the present, the level in 1950 CE normal with sd 5.0 m/);
  assert.ok(!textOf(page(withCurve(results, null))).includes('Gaussian process'));
});

test('methods name the section lines with their holes, and those set on a line from next to it', () => {
  const at = (along_m: number) => ({ along_m, elevation_m: 0 });
  const section = (line: string | null) => ({
    line,
    row_id: line,
    holes: [
      { hole: 'A1', along_m: 0, offset_m: 0 },
      { hole: 'A2', along_m: 60, offset_m: -3.26 },
    ],
    distances: 'measured' as const,
    length_m: 60,
    ground: [],
    is_profiled: true,
    bodies: [{ id: 'u', sediment: 'sand', units: [], outline: [at(0), at(60), at(30)] }],
    contacts: [],
    queries: [],
    time_lines: [],
  });
  const text = textOf(page({ ...tinyResults(), sections: [section('North')] }));
  assert.match(text, /1 line \(North: A1, A2, ground profiled\)/);
  assert.match(text, /Set on the line from next to it: A2 3\.3 m\./);
  // The line through all holes was asked for by no one.
  assert.doesNotMatch(textOf(page({ ...tinyResults(), sections: [section(null)] })), /ground profiled/);
});

test('methods say which ages share a systematic error, and that a range is even', () => {
  const results = tinyResults();
  const [first, second, ...rest] = results.dates;
  const dose = { ...first!, method: 'luminescence', curve: null, error: 300, sd_yr: 300 };
  const range = { ...second!, method: 'marker', curve: null, error: 60, sd_yr: 60 / Math.sqrt(3) };
  const together = { id: 'lab 2024', kind: 'dose', members: ['LAB-1001'] } as const;
  const all = textOf(
    page({ ...results, dates: [dose, range, ...rest], groups: [...results.groups, together] }),
  );
  assert.match(
    all,
    /2 ages by other methods are used as normal distributions in calendar years, or even ones where only the ends of a range are known\. The systematic error of ages measured together \(lab 2024\) is one unknown/,
  );
  const computed = { ...dose, age_from: 'measurements' } as const;
  const coral = { ...computed, method: 'u_series' };
  const ash = { ...range, age_from: 'density', error: range.sd_yr } as const;
  const without = textOf(page({ ...results, dates: [computed, coral, ash, ...rest] }));
  assert.match(without, /1 luminescence age was computed as equivalent dose over dose rate \(Aitken 1985\)/);
  assert.match(without, /1 uranium-series age was computed from activity ratios .*Cheng et al\. 2013/);
  assert.match(without, /1 age is a table of years and their weights/);
  assert.match(without, /Computed from the measurements of its sample\./);
  assert.match(without, /Median and 1 sd of an age density\./);
  assert.ok(!without.includes('by other methods'));
  const alone = textOf(page({ ...results, dates: [dose, ...rest] }));
  assert.match(alone, /1 age by other methods is used as normal distributions in calendar years\. /);
});

test('a result in F14C is shown as measured with its age below, and a year after 1950 in the common era', () => {
  const results = tinyResults();
  const [first, ...rest] = results.dates;
  const modern = {
    ...first!,
    value: -1814.3,
    error: 16.02,
    f14c: 1.2534,
    f14c_sigma: 0.0025,
    median_cal_bp: -12.6,
  };
  const text = textOf(page({ ...results, dates: [modern, ...rest] }));
  assert.match(text, /14 C yr BP, or F14C/);
  assert.match(text, /F14C 1\.2534 ±0\.0025 .*?−13 1963 CE .*?Conventional age −1,814 ±16 BP\./);
  assert.ok(!textOf(page({ ...results, dates: rest })).includes('F14C'));
  const drawing = datesFigure({ ...results, dates: [modern, ...rest] }).svg.replace(/<[^>]*>/g, '');
  assert.match(drawing, /F14C 1\.2534 ± 0\.0025.*−13.* 1963 CE/);
});

test('what has not converged is one line at the result, and number by number in a table', () => {
  const results = tinyResults();
  const remarks = Array.from({ length: 30 }, (_, i) => `level at ${i * 300} cal BP did not converge`);
  const diagnostics = { ...curveOf(results)!.diagnostics, converged: false, remarks };
  const html = page(withCurve(results, { ...curveOf(results)!, diagnostics }));
  const found = html.split('id="found"')[1]!.split('</section>')[0]!;
  assert.match(found, /Not converged/);
  assert.doesNotMatch(found, /level at 300 cal BP/);
  const table = html.split('What has not converged or was left out')[1]!.split('</table>')[0]!;
  assert.deepEqual(
    [...table.matchAll(/<tr><td>the curve<\/td><td>(.*?)<\/td><\/tr>/g)].map((m) => m[1]),
    remarks,
  );
  assert.ok(!page(results).includes('What has not converged or was left out'));
});

test('no residual is reported of a limiting point: what lies between it and the sea is no misfit', () => {
  const results = tinyResults();
  const limits = curveOf(results)!.points.filter(({ kind }) => kind !== 'index');
  assert.ok(limits.length > 0, 'the fixture has a limit');
  const marked = curveOf(results)!.points.map((p) => (p.kind === 'index' ? p : { ...p, residual_m: 7.77 }));
  assert.doesNotMatch(page(withCurve(results, { ...curveOf(results)!, points: marked })), /7\.77/);
});

test('not converged is said at the result and among the cautions', () => {
  const results = tinyResults();
  const diagnostics = {
    ...curveOf(results)!.diagnostics,
    converged: false,
    remarks: ['rate at 8,000 cal BP'],
  };
  const text = textOf(page(withCurve(results, { ...curveOf(results)!, diagnostics })));
  assert.match(
    text,
    /Not converged: largest R-hat 1\.004, at least 640 effective draws.*?\. Do not quote these rates/,
  );
  assert.match(text, /The curve has not converged/);
  // Every table of the curve has a column for it, and every row its mark.
  const html = page(withCurve(results, { ...curveOf(results)!, diagnostics }));
  const tables = html.split('<table').filter((table) => table.includes('>converged</th>'));
  assert.ok(tables.length >= 6, `${tables.length} tables`);
  for (const table of tables) {
    const [head = '', body = ''] = table.split('<tbody>');
    const marked = body.match(/<td class="n not-converged">/g)?.length ?? 0;
    const rows = body.split('</tbody>')[0]!.match(/<tr>.*?<\/tr>/g) ?? [];
    // A shared error that no curve has found anything of has no number.
    const numberless = rows.filter((row) => row.endsWith('<td></td><td></td><td></td></tr>')).length;
    assert.equal(marked + numberless, rows.length, head);
  }
  assert.ok(!page(results).includes('>converged</th>'));
});

test('points that disagree stand with the result, and each point’s p and shift in the table of points', () => {
  const results = tinyResults();
  const curve = curveOf(results)!;
  const [first, ...rest] = curve.points;
  const odd = { ...first!, predictive_p: 1e-5, age_shift_sd: 0.1, others_level_m: { mean: -2.5, sd: 0.4 } };
  const text = textOf(page(withCurve(results, { ...curve, points: [odd, ...rest] })));
  assert.match(text, /Points disagree with the others: P1 \(p <0\.001, age moved \+0\.1 sd\)\./);
  assert.match(text, /P1 40 .* \+0\.1 \+0\.04 −2\.50 ±0\.80 <0\.001/);
  assert.ok(!text.includes('No point disagrees'));
  const sound = textOf(page(results));
  assert.match(sound, /No point disagrees with the others : none has p below 0\.017/);
});

test('highest stand, fastest stretch and acceleration stand with the result, marked where not converged', () => {
  const results = tinyResultsWithDraws();
  const text = textOf(page(results));
  assert.match(text, /Highest stand The sea stood highest at 0\.00 m \(95 % /);
  assert.match(text, /Fastest and slowest 1,000 yr The fastest 1,000 yr rose \+3\.0 mm\/yr/);
  assert.match(text, /Acceleration The rate changed by /);
  assert.ok(!textOf(page(tinyResults())).includes('The sea stood highest'), 'none without draws');
  const curve = curveOf(results)!;
  const diagnostics = { ...curve.diagnostics, converged: false };
  const table = page(withCurve(results, { ...curve, diagnostics }))
    .split('<table')
    .find((each) => each.includes('The sea stood highest'))!;
  assert.equal(table.split('</table>')[0]!.split('not-converged').length - 1, 3);
});

test('points of another site are named, and are not in the curve', () => {
  const results = tinyResults();
  const [first, ...rest] = results.points;
  const text = textOf(page({ ...results, points: [{ ...first!, site: 'Far Bay' }, ...rest] }));
  assert.match(text, /1 accepted points of Far Bay are in no curve\./);
});

test('the curves of other sites follow, each with its numbers, its figure and whether it has converged', () => {
  const results = tinyResults();
  const [first, ...rest] = results.points;
  const [own] = results.curves;
  const bad = { ...own!.curve!.diagnostics, converged: false, remarks: ['too few draws'] };
  const curves = [
    own!,
    {
      ...own!,
      id: 'west',
      role: 'of its own' as const,
      sites: ['Far Bay', 'Cape'],
      curve: { ...own!.curve!, diagnostics: bad },
    },
  ];
  const figure = {
    name: 'curve-west',
    svg: '<svg width="90mm"><desc>WEST</desc></svg>',
    caption: 'West. Of it.',
  };
  const html = reportHtml(
    { ...results, points: [{ ...first!, site: 'Far Bay' }, ...rest], curves },
    [figure],
    { fontCss: '' },
  );
  const text = textOf(html);
  assert.match(
    text,
    /This curve is of MB\. Curves of their own: west \(Far Bay, Cape\), under Other sites\./,
  );
  assert.doesNotMatch(text, /in no curve/);
  const [from, to] = ['<section id="sites"', '<section id="holes"'].map((start) => html.indexOf(start));
  const other = textOf(`<body>${html.slice(from, to)}`);
  assert.match(other, /Curve west, of Far Bay, Cape/);
  assert.match(other, /Figure 1\. West\./);
  assert.match(other, /Rate, [\d,]+ to [\d,]+ cal BP/);
  assert.match(other, /Not converged: largest R-hat .* Do not quote these rates/);
  assert.match(text, /curve west too few draws/);
  assert.match(text, /Not converged: the curve of Far Bay, Cape\. Its numbers are shown so that/);
  // One curve alone has no such section.
  assert.doesNotMatch(page(results), /<section id="sites"/);
});

test('a number of another curve is answered by its own curve, a point’s by the point', () => {
  const results = tinyResults();
  const [own] = results.curves;
  const west = { ...own!, id: 'west', role: 'of its own' as const, sites: ['Far Bay'] };
  const where: WhereFrom = {
    node: (id) => ({
      id,
      label: id,
      how: '',
      value: null,
      sigma: null,
      unit: '',
      signed: false,
      row: null,
      parts: [],
    }),
    typed: () => '',
  };
  const html = reportHtml({ ...results, curves: [own!, west] }, [], { fontCss: '', where });
  const start = html.indexOf('<section id="sites"');
  const end = html.indexOf('<section id="holes"');
  const asked = (part: string): string[] =>
    [...part.matchAll(/class="from" href="#from-([^"]+)"/g)].map(([, id]) => decodeURIComponent(id!));
  const ofWest = asked(html.slice(start, end));
  assert.ok(ofWest.includes('curve:west/interval:8000-7000'));
  assert.ok(ofWest.includes('curve:west/point:P1/residual'));
  assert.deepEqual(
    ofWest.filter((id) => !id.startsWith('curve:west/')),
    [],
  );
  const others = asked(html.slice(0, start) + html.slice(end));
  assert.ok(others.includes('interval:8000-7000') && others.includes('point:P1/rsl'));
  assert.deepEqual(
    others.filter((id) => id.startsWith('curve:')),
    [],
  );
});

test('a safety question answered no stands first among the cautions, as a danger with the hazard and what to do', () => {
  const results = tinyResults();
  const no = {
    severity: 'danger' as const,
    code: 'safety-no',
    table: 'checks',
    row_id: 'c1',
    line: 2,
    label: 'H1',
    column: 'answer',
    found: 'no, by DK, 2024-03-05 08:12, to Mast clear of overhead lines',
    expected: 'yes, or not needed',
    fix: 'Overhead line within reach of the mast. Lower the mast and keep it down.',
  };
  const text = textOf(page({ ...results, problems: [no, ...results.problems] }));
  assert.match(text, /Dangers and cautions/);
  assert.match(text, /Danger: safety question of H1 answered no, by DK, .* Lower the mast and keep it down/);
  // over, it is part of the record
  const over = textOf(
    page({ ...results, problems: [{ ...no, severity: 'note' as const }, ...results.problems] }),
  );
  assert.doesNotMatch(over, /Dangers and cautions/);
  assert.match(over, /Safety question of H1 answered no/);
});

test('a campaign with nothing in it, and one without a single number, still make a page and tables', () => {
  const none = { holes: [], samples: [], dates: [], points: [], curves: [], problems: [], settings: [] };
  const empty = textOf(page({ ...tinyResults(), ...none, name: '' }));
  assert.match(empty, /Campaign without a name .*No sea-level curve could be computed.*None found/);
  const numberless = changed(
    tinyResults(),
    (text) => text,
    () => Number.NaN,
  );
  for (const text of [textOf(page(numberless)), ...resultTables(numberless).values()]) {
    assert.ok(!/NaN|Infinity|undefined/.test(text), /.{40}(NaN|Infinity|undefined)/.exec(text)?.[0] ?? '');
  }
});

test('environments through time have a section with passages, how long each stood and whether it kept up, and a methods text', () => {
  const { environments, lines_through_time } = coastThroughTime;
  const results = { ...tinyResults(), environments, lines_through_time };
  const text = textOf(page(results));
  for (const words of [
    'When the edge passed each hole. Inside: land surface.',
    'T1 0 outside 7,600 7,960–7,240',
    'at least 1,480 yr, probability 0.95',
    'high marsh 1 +1.40 +1.00 to +1.80 +1.10 +0.90 to +1.30 0.93',
    'bridge of gamma increments',
    'what has sunk since by compaction is not raised',
  ])
    assert.ok(text.includes(words), words);
  const open = {
    ...results,
    environments: environments.map((each) => ({ ...each, converged: each.hole !== 'T1' })),
  };
  assert.match(textOf(page(open)), /Ages against depth of T1 have not converged: do not use the rows/);
  assert.doesNotMatch(textOf(page(tinyResults())), /Environments through time/);
});

test('figures stand in their places, numbered as they are met, their ids their own', () => {
  const svg =
    '<?xml version="1.0"?><svg width="90mm"><clipPath id="a"/><g clip-path="url(#a)"/><use href="#a"/></svg>';
  const names = [
    'budget-P4',
    'budget-P2',
    'budget-P1',
    'column-A1',
    'curve',
    'another',
    'dates',
    'section',
    'column-A2',
  ];
  const html = page(
    tinyResults(),
    names.map((name) => ({ name, svg, caption: `Drawn ${name}. <More> of it.` })),
  );
  const captions = [...textOf(html).matchAll(/Figure (\d+)\. Drawn (\S+)\. (<More>|Drawn as figure \d+)/g)];
  assert.deepEqual(
    captions.map((caption) => caption.slice(1).join(' ')),
    [
      '1 curve <More>',
      '2 section <More>',
      '3 column-A1 <More>',
      '4 column-A2 Drawn as figure 3',
      '5 dates <More>',
      // Of three budgets those of the two points that decide most.
      '6 budget-P2 <More>',
      '7 budget-P1 Drawn as figure 6',
      '8 another <More>',
    ],
  );
  assert.equal(inlined(svg, 'f1-'), svg.slice(21).replaceAll('"a"', '"f1-a"').replaceAll('#a', '#f1-a'));
  assert.equal(new Set(html.match(/\bid="[^"]+"/g)).size, html.match(/\bid="[^"]+"/g)?.length);
  assert.ok(!html.includes('<?xml'));
});

test('every letter of the page is in the two faces', () => {
  // Basic Latin, Latin-1 and Latin Extended-A, and what the faces' subset adds (output/paper).
  const letters = /^[\u0020-\u007e\u00a0-\u017f\nΔδσρΣ−–—‘’“”…‰√]*$/;
  assert.match(textOf(page(tinyResults())), letters);
});

test('the same results give the same page', () => {
  assert.equal(page(tinyResults()), page(tinyResults()));
});

test('where each item of pipe, the samplers and the gear are is said with the tally, once it is given', () => {
  const page = (pipe?: CampaignPipe) =>
    reportHtml(tinyResults(), [], { fontCss: '', ...(pipe === undefined ? {} : { pipe }) });
  assert.doesNotMatch(page(), /Where each item is/);
  const item = (label: string, whereabouts: 'in stock' | 'missing', hole: string | null) => ({
    item: 'joint' as const,
    label,
    length_m: 3,
    length_in: 'pipe_stock' as const,
    makeup_loss_m: null,
    pipe: null,
    row_id: null,
    stock_row_id: label,
    whereabouts,
    hole,
    time_ms: Number.NaN,
    isAtHand: whereabouts === 'in stock',
  });
  const html = page({
    items: [item('A1', 'in stock', null), item('A2', 'missing', 'T1')],
    totals: [
      { item: 'joint', whereabouts: 'in stock', items: 1, length_m: 3 },
      { item: 'joint', whereabouts: 'missing', items: 1, length_m: 3 },
    ],
    samplers: [{ sampler: 'V50', row_id: 'v', kind: 'valve', whereabouts: 'lost', hole: 'T1', run: 'R3' }],
    gear: [
      {
        gear: 'rope',
        row_id: 'g',
        kind: 'rope',
        count: 2,
        marks: 'red every metre',
        for: null,
        whereabouts: 'left',
        hole: 'T1',
      },
    ],
  });
  assert.match(html, /A2 not accounted for in T1/);
  assert.match(html, /lost in T1, run R3/);
  assert.match(html, /red every metre<\/td><td>left in T1/);
});
