import assert from 'node:assert/strict';
import { test } from 'node:test';
import { curveOf, withCurve } from '@stillstand/campaign/results';
import { coastThroughTime } from '../figures/fixtures/environments.ts';
import { HOSTILE, tinyResults, tinyResultsWithDraws } from './fixtures/results.ts';
import { resultTables } from './tables.ts';

const throughTime = () => {
  const { environments, lines_through_time } = coastThroughTime;
  return { environments, lines_through_time };
};

/** RFC 4180 read by its grammar, one character at a time: the slow twin of the writer. */
function read(csv: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (let i = 0; i < csv.length; i++) {
    const c = csv[i]!;
    if (isQuoted) {
      if (c === '"' && csv[i + 1] === '"') {
        cell += '"';
        i++;
      } else if (c === '"') isQuoted = false;
      else cell += c;
    } else if (c === '"') isQuoted = true;
    else if (c === ',' || c === '\n') {
      row.push(cell);
      cell = '';
      if (c === '\n') {
        rows.push(row);
        row = [];
      }
    } else cell += c;
  }
  assert.equal(cell + row.join(''), '', 'the last line ends with a line feed');
  return rows;
}

/** The rows of a table, each a look-up by heading. */
function records(name: string, results = tinyResults()): ((heading: string) => string)[] {
  const [headings = [], ...rows] = read(resultTables(results).get(name) ?? '');
  return rows.map((row) => (heading) => {
    const at = headings.indexOf(heading);
    assert.ok(at >= 0, `${name} has no heading ${heading}`);
    return row[at]!;
  });
}

test('every table is there and square, also when there is nothing in it', () => {
  const names = [
    'holes',
    'runs',
    'units',
    'correlations',
    'horizons',
    'correlation_proposals',
    'sections',
    'section_holes',
    'section_contacts',
    'expected',
    'samples',
    'measurements',
    'logs',
    'grain_sizes',
    'grain_classes',
    'tide_levels',
    'dates',
    'dose_rates',
    'lead_profiles',
    'lead_slices',
    'lead_ages',
    'age_depth',
    'environments',
    'event_beds',
    'edges',
    'edge_passages',
    'environments_stood',
    'past_sections',
    'points',
    'published_points',
    'curve',
    'intervals',
    'gauge_blocks',
    'changes',
    'rates_compared',
    'prior_sensitivity',
    'answers',
    'compared_curves',
    'differences',
    'rate_differences',
    'next_dates',
    'problems',
    'settings',
  ];
  const empty = {
    ...tinyResults(),
    holes: [],
    samples: [],
    correlations: [],
    horizons: [],
    correlation_proposals: [],
    sections: [],
    expectations: [],
    tides: [],
    measurements: [],
    logs: [],
    grain_sizes: [],
    photographs: [],
    dates: [],
    points: [],
    curves: [],
    problems: [],
    settings: [],
  };
  for (const results of [tinyResults(), empty]) {
    const tables = resultTables(results);
    assert.deepEqual(
      [...tables.keys()],
      [...names, 'account'].map((name) => `${name}.csv`),
    );
    for (const [name, csv] of tables) {
      const rows = read(csv);
      assert.ok(rows[0]!.length > 2, name);
      for (const row of rows) assert.equal(row.length, rows[0]!.length, name);
      assert.equal(new Set(rows[0]).size, rows[0]!.length, `${name}: a heading comes twice`);
      assert.ok(!csv.includes('\r') && !/NaN|Infinity|undefined|null/.test(csv), name);
    }
  }
});

test('text comes through whatever is in it', () => {
  const [unit] = records('units.csv');
  assert.equal(unit!('colour'), '10YR 2/1, "very dark"');
  assert.equal(unit!('description'), 'line one\nline two');
  assert.equal(records('dates.csv')[2]!('reason'), `reworked ${HOSTILE}`);
});

test('a point has the fields of the community protocol, its error parts at 2 sigma adding to its error', () => {
  const points = records('points.csv');
  const [headings = []] = read(resultTables(tinyResults()).get('points.csv')!);
  const [first, marine] = points;
  assert.equal(first!('point'), 'P1');
  assert.equal(first!('latitude_deg_wgs84'), '-47.123456');
  assert.equal(first!('c14_age_bp'), '7120');
  assert.equal(first!('rsl_m'), '-9.43');
  // An even range 0.50 m wide: 2 × 0.25/√3. The protocol counts its half, 0.25, and √(0.25² + 0.1² + 0.06² + 0.22²) = 0.35.
  assert.equal(first!('error_indicative_range_m_2sigma'), '0.289');
  assert.equal(first!('rsl_error_m_2sigma_of_protocol'), '0.35');
  assert.equal(first!('rsl_error_m_2sigma'), '0.38');
  assert.equal(first!('errors_assumed'), 'tide_levels');
  assert.equal(first!('errors_shared_with'), 'tide_levels: tide:Marsh; levelling: level:BM1');
  assert.equal(marine!('indicative_range_m_full_width'), '');
  assert.equal(marine!('error_indicative_range_m_2sigma'), '');
  assert.equal(marine!('delta_r_c14_yr'), '-120');
  for (const point of points) {
    const parts = headings
      .filter((heading) => /^error_.*_2sigma$/.test(heading))
      .map((heading) => Number(point(heading)));
    const sum = Math.sqrt(parts.reduce((total, part) => total + part ** 2, 0));
    assert.ok(
      Math.abs(sum - Number(point('rsl_error_m_2sigma'))) <= 0.005 + 0.001 * parts.length,
      point('point'),
    );
  }
});

test('dates carry both sets with their probabilities, laboratory errors at 1 sigma', () => {
  const [first] = records('dates.csv');
  assert.equal(first!('error_yr_1sigma'), '30');
  assert.equal(
    first!('set_95.4_cal_bp_older_to_younger_with_probability'),
    '7550 to 7330 (0.812); 7310 to 7270 (0.142)',
  );
  assert.equal(first!('oldest_95.4_cal_bp'), '7550');
  assert.equal(first!('youngest_95.4_cal_bp'), '7270');
  assert.equal(first!('delta_r_c14_yr'), '');
});

test('a section has its holes, and its contacts with where they begin and end along the line', () => {
  const at = (along_m: number) => ({ along_m, elevation_m: 0 });
  const results = {
    ...tinyResults(),
    sections: [
      {
        line: 'A',
        row_id: 'l',
        holes: [{ hole: 'A1', along_m: 0, offset_m: -2.25 }],
        distances: 'measured' as const,
        length_m: 61.4,
        ground: [],
        is_profiled: true,
        bodies: [],
        contacts: [
          {
            hole_a: 'A2',
            unit_a: '3',
            unit_a_row_id: 'u',
            hole_b: null,
            unit_b: null,
            unit_b_row_id: null,
            horizon: null,
            confidence: null,
            ending: 'pinch_out' as const,
            is_erosional: true,
            is_lateral: false,
            line: [at(61.4), at(20.26)],
            tie: null,
            boundary: 'b',
          },
        ],
        queries: [],
        time_lines: [],
      },
    ],
  };
  const [section] = records('sections.csv', results);
  assert.deepEqual(
    ['line', 'distances', 'length_m', 'is_profiled'].map((name) => section!(name)),
    ['A', 'measured', '61.4', 'yes'],
  );
  const [hole] = records('section_holes.csv', results);
  assert.deepEqual(
    ['line', 'hole', 'along_m', 'offset_m'].map((name) => hole!(name)),
    ['A', 'A1', '0.0', '-2.3'],
  );
  const [contact] = records('section_contacts.csv', results);
  assert.deepEqual(
    ['hole_a', 'ending', 'is_erosional', 'from_m', 'to_m'].map((name) => contact!(name)),
    ['A2', 'pinch_out', 'yes', '20.3', '61.4'],
  );
});

test('what stood through time has a row for each spell, bed, passage, age of the edge and hole of a past section', () => {
  const results = { ...tinyResults(), ...throughTime() };
  const spells = records('environments.csv', results);
  assert.equal(spells.length, results.environments.flatMap(({ spells: own }) => own).length);
  const marsh = spells.find((row) => row('environment') === 'high marsh')!;
  assert.deepEqual(
    ['against_sea_kept_up', 'against_sea_accretion_mm_yr_median', 'layers'].map((name) => marsh(name)),
    ['0.930', '1.400', '1'],
  );
  const line = results.lines_through_time[0]!;
  assert.equal(records('edges.csv', results).length, line.edge!.ages_cal_bp.length);
  const [passage] = records('edge_passages.csv', results);
  assert.deepEqual(
    ['hole', 'came', 'age_cal_bp_median'].map((name) => passage!(name)),
    ['T1', 'outside', '7600'],
  );
  assert.equal(records('environments_stood.csv', results)[0]!('at_least_yr'), '1480');
  assert.equal(
    records('past_sections.csv', results).length,
    line.past_sections.flatMap(({ holes }) => holes).length,
  );
  assert.ok(records('event_beds.csv', results).length > 0);
});

test('decimals follow the uncertainty, and value and uncertainty share them', () => {
  const [interval] = records('intervals.csv');
  assert.deepEqual([interval!('rate_mm_yr_mean'), interval!('rate_mm_yr_2sd')], ['4.25', '0.48']);
  assert.equal(records('curve.csv').length, 9);
  assert.equal(records('curve.csv')[8]!('rsl_m_median'), '-11.45');
  assert.equal(records('problems.csv')[0]!('severity'), 'danger');
  assert.equal(records('account.csv').length, 8);
});

test('a point has what the others have of it; a limit has no residual', () => {
  const [first] = records('points.csv');
  assert.deepEqual(
    ['in_curve', 'p_among_other_points', 'rsl_by_other_points_m', 'disagrees', 'curve_converged'].map(
      (heading) => first!(heading),
    ),
    ['yes', '0.8000', '-9.38', 'no', 'yes'],
  );
  assert.equal(first!('increase_in_2sigma_of_first_rate_without_it_percent'), '40');
  assert.notEqual(first!('residual_m'), '');
  const limit = records('points.csv').find((row) => row('kind') === 'marine')!;
  assert.equal(limit('residual_m'), '');
  assert.notEqual(limit('p_among_other_points'), '');
});

test('every row of a curve that has not converged says so', () => {
  const results = tinyResults();
  const curve = curveOf(results)!;
  const diagnostics = { ...curve.diagnostics, converged: false };
  const unsettled = withCurve(results, { ...curve, diagnostics });
  for (const [name, heading] of [
    ['curve.csv', 'converged'],
    ['intervals.csv', 'converged'],
    ['points.csv', 'curve_converged'],
  ] as const) {
    for (const row of records(name)) assert.ok(['yes', ''].includes(row(heading)), name);
    for (const row of records(name, unsettled)) assert.ok(['no', ''].includes(row(heading)), name);
  }
});

test('answers are rows with unit, 95 %, probability and Monte-Carlo error; none without draws', () => {
  assert.deepEqual(records('answers.csv'), []);
  const rows = records('answers.csv', tinyResultsWithDraws());
  const row = (what: string, heading: string): string => rows.find((each) => each('what') === what)!(heading);
  assert.equal(Number(row('highest stand', 'median')), 0);
  assert.equal(row('highest stand', 'unit'), 'm');
  assert.equal(row('highest stand at the younger end', 'probability'), '1.0000');
  assert.equal(row('highest stand at the younger end', 'median'), '');
  assert.equal(row('rate of the fastest 1000 yr', 'median'), '2.95');
  assert.ok(Number(row('rate of the fastest 1000 yr', 'monte_carlo_error_1sigma')) > 0.1);
  assert.ok(Number(row('mean rate of the older half', 'effective_draws')) > 3);
  for (const each of rows) {
    assert.equal(each('converged'), 'yes');
    assert.equal(each('younger_cal_bp'), '0');
    assert.ok((each('median') === '') !== (each('probability') === ''), each('what'));
  }
});

test('curves of other sites have their rows in the same tables, each with its name; a point shows its own curve', () => {
  const results = tinyResults();
  const [own] = results.curves;
  const [first, ...rest] = results.points;
  const moved = own!.curve!.points.map((point) => ({ ...point, age_shift_sd: 9 }));
  const west = {
    ...own!,
    id: 'west',
    role: 'of its own' as const,
    sites: ['Far Bay'],
    curve: { ...own!.curve!, points: moved.filter(({ id }) => id === first!.point) },
  };
  const without = { ...own!.curve!, points: own!.curve!.points.filter(({ id }) => id !== first!.point) };
  const both = resultTables({
    ...results,
    points: [{ ...first!, site: 'Far Bay' }, ...rest],
    curves: [{ ...own!, curve: without }, west],
  });
  const rows = (table: string): Record<string, string>[] => {
    const [names, ...lines] = read(both.get(table)!);
    return lines.map((line) => Object.fromEntries(line.map((cell, i) => [names![i]!, cell])));
  };
  for (const table of ['curve.csv', 'intervals.csv']) {
    const of = Map.groupBy(rows(table), (row) => row['curve']);
    assert.deepEqual([...of.keys()], ['main', 'west'], table);
    // Whether an index point lies within depends on the points, and theirs differ.
    const [a, b] = [...of.values()].map((each) =>
      each.map(({ curve: _, index_point_within: __, ...row }) => row),
    );
    assert.deepEqual(a, b, table);
  }
  const ofPoints = rows('points.csv').map((row) => [row['point'], row['curve'], row['age_shift_prior_sd']]);
  assert.deepEqual(ofPoints[0], [first!.point, 'west', '9.00']);
  assert.ok(ofPoints.slice(1).some(([, curve]) => curve === 'main'));
  assert.ok(ofPoints.slice(1).every(([, curve]) => curve !== 'west'));
});
