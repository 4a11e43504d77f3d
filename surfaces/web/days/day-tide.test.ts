import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { asKept, switchedTo, type Way, wayIn, withWay } from './access.ts';
import { campaignOffset, clockAt, dayTide, isoAt, leastMargin, offsetIn } from './day-tide.ts';
import { readTableLines, tableCellsIn } from './tide-table.ts';

const OFFSET = -480;
const tableOf = (text: string, date: string, offset_min: number, isDiurnal = false) =>
  readTableLines(tableCellsIn(text), { date, offset_min, unit: 'm', isDiurnal });

const site = {
  predicted: {
    gauge: 'Pole',
    tide: { mean_m: 0, constants: [{ constituent: 'S2', amplitude_m: 1, phase_deg: 0.25 }] },
    constituents: ['S2'],
  },
  waters: [],
  needs: [],
};
/** High half a minute past 0 and 12 h UTC: past 4 and 16 h by this clock; low past 10 and 22. */
const way: Way = { kind: 'foot', level_m: 0.3, margin_m: 0.3, minutes: 45 };
const clocks = (times: (number | null)[]) => times.map((t) => (t === null ? null : clockAt(t, OFFSET)));

test('on foot: dry while the water is below the way less its margin; leave by its end less the way', () => {
  const tide = dayTide(site, '2024-03-05', OFFSET, way)!;
  assert.deepEqual(
    tide.waters.map((w) => `${w.kind} ${clockAt(w.time_ms, OFFSET)} ${w.height_m.toFixed(2)}`),
    ['high 04:00 1.00', 'low 10:00 -1.00', 'high 16:00 1.00', 'low 22:00 -1.00'],
  );
  assert.equal(tide.limit_m, 0);
  // Below 0 from three hours after a high water to three before the next: half a minute past 7 and 13 h, and shown to
  // open in the minute after, to close in the minute before.
  assert.deepEqual(
    tide.spans.map((s) => clocks([s.from_ms, s.to_ms, s.leave_by_ms])),
    [
      ['19:01', '01:00', '00:15'],
      ['07:01', '13:00', '12:15'],
      ['19:01', '01:00', '00:15'],
    ],
  );
  // The bare level is passed asin(0.3) of the half-day later: 34.9 min.
  assert.equal(tide.spans[1]!.margin_min, 35);
  assert.equal(isoAt(tide.spans[1]!.leave_by_ms!, OFFSET), '2024-03-05T12:15:00-08:00');
});

test('what is not known of constants and mean level widens the band and the margin asked for', () => {
  const [constant] = site.predicted.tide.constants;
  const uncertain = {
    ...site,
    predicted: {
      ...site.predicted,
      tide: {
        mean_m: 0,
        mean_sigma_m: 0.12,
        constants: [{ ...constant!, amplitude_sigma_m: 0.2, phase_sigma_deg: 0 }],
      },
    },
  };
  assert.equal(dayTide(site, '2024-03-05', OFFSET, way)!.sd_m, 0.15);
  assert.equal(leastMargin(0.15), 0.3);
  const { sd_m } = dayTide(uncertain, '2024-03-05', OFFSET, way)!;
  assert.ok(Math.abs(sd_m - Math.sqrt(0.15 ** 2 + 0.12 ** 2 + 0.2 ** 2 / 2)) < 1e-12);
  // 0.479 m, to the safe side.
  assert.equal(leastMargin(sd_m), 0.48);
  const tabled = {
    ...uncertain,
    waters: tableOf('03:50 1.9\n10:05 0.1\n16:20 1.8', '2024-03-05', OFFSET).waters,
  };
  const table = dayTide(
    { ...tabled, waters: tabled.waters.map((w) => ({ ...w, gauge: 'T' })) },
    '2024-03-05',
    OFFSET,
    way,
  );
  assert.equal(table!.sd_m, 0.15);
});

test('by boat: open while the water stands above; never or always open sets no hour', () => {
  const boat = dayTide(site, '2024-03-05', OFFSET, {
    kind: 'boat',
    level_m: -0.3,
    margin_m: 0.3,
    minutes: 0,
  })!;
  assert.deepEqual(
    boat.spans.map((s) => clocks([s.from_ms, s.to_ms])),
    [
      ['01:01', '07:00'],
      ['13:01', '19:00'],
    ],
  );
  assert.deepEqual(dayTide(site, '2024-03-05', OFFSET, { ...way, level_m: -1 })!.spans, []);
  assert.deepEqual(dayTide(site, '2024-03-05', OFFSET, { ...way, level_m: 2 })!.spans, [
    { from_ms: null, to_ms: null, leave_by_ms: null, margin_min: null },
  ]);
});

test('waters of an official table come before a prediction; outside them nothing is open', () => {
  const { waters, says } = tableOf('03:50 1.9\n1005 0,1 m\n16:20 6.0 ft HW\n22.40 0.2', '2024-03-05', OFFSET);
  assert.deepEqual(says, []);
  const tabled = { ...site, waters: waters.map((w) => ({ ...w, gauge: 'Table' })) };
  const tide = dayTide(tabled, '2024-03-05', OFFSET, { ...way, level_m: 1.3 })!;
  assert.equal(tide.source, 'table');
  assert.equal(tide.gauge, 'Table');
  assert.deepEqual(
    tide.waters.map((w) => `${w.kind} ${clockAt(w.time_ms, OFFSET)} ${w.height_m.toFixed(2)}`),
    ['high 03:50 1.90', 'low 10:05 0.10', 'high 16:20 1.83', 'low 22:40 0.20'],
  );
  // Half a cosine stands at its middle, 1.0, half-way in time; the table ends before the water comes back.
  assert.deepEqual(clocks([tide.spans[0]!.from_ms! + 30_000]), ['06:58']);
  assert.equal(tide.spans[1]!.to_ms, null);
  assert.equal(tide.spans[1]!.leave_by_ms, null);
  // Another day falls back on the constants.
  assert.equal(dayTide(tabled, '2024-03-09', OFFSET, way)!.source, 'constants');
  assert.equal(dayTide({ ...tabled, predicted: null }, '2024-03-09', OFFSET, way), null);
});

test('a table is read as people write it: lists and spreadsheets, several days, feet, words, morning and afternoon', () => {
  const times = (text: string, offset_min = 0) =>
    tableOf(text, '2024-03-05', offset_min).waters.map(
      (w) => `${isoAt(w.time_ms, offset_min)} ${w.height_m.toFixed(2)} ${w.kind}`,
    );
  assert.deepEqual(times('18:00 2.0\n00:20 0.3', 60), [
    '2024-03-05T18:00:00+01:00 2.00 high',
    '2024-03-06T00:20:00+01:00 0.30 low',
  ]);
  const days = ['2024-03-04T23:10:00+00:00 0.20 low', '2024-03-05T05:20:00+00:00 2.20 high'];
  for (const text of [
    '2024-03-04 23:10 0.2\n2024-03-05 05:20 high 2.2 m',
    'date\ttime\theight\n2024-03-04\t23:10\t0.2\n\t05:20\t2.2',
    '2024-03-04\t11:10 pm\t0.2 LW\n2024-03-05\t5:20 am\t2,2 HW',
    '2024-03-04 2310 0.2\n0520 2.2',
  ])
    assert.deepEqual(times(text), days, text);
  assert.deepEqual(
    readTableLines(tableCellsIn('05:12 1.3\n11:20 8.5'), {
      date: '2024-03-05',
      offset_min: 0,
      unit: 'ft',
    }).waters.map((w) => w.height_m.toFixed(3)),
    ['0.396', '2.591'],
  );
});

test('what cannot be read is named in its cell and kept; what is odd is asked about, and used', () => {
  const said = (text: string, isDiurnal = false) =>
    tableOf(text, '2024-03-05', 0, isDiurnal).says.map(
      (s) => `${s.line + 1} ${s.entry} ${s.severity}: ${s.words}`,
    );
  assert.deepEqual(said('05:12 low\n25:10 1'), [
    '1 time error: found “05:12 low”; expected a time such as 05:12.',
    '1 height error: found “”; expected a height such as 0.4, 1.3 ft or 2.6 HW.',
    '2 time error: found “25:10”; expected a time such as 05:12.',
  ]);
  assert.deepEqual(said('5 March\t01:00\t1'), [
    '1 date error: found “5 March”; expected a date such as 2024-03-05.',
  ]);
  // Lines under a date that cannot be read are of no day, not of the day before.
  const under = tableOf(
    '2024-03-04\t18:00\t2\n5 March\t01:00\t1\n\t07:10\t2\n2024-03-06\t01:30\t1',
    '2024-03-04',
    0,
  );
  assert.deepEqual(
    under.waters.map(({ line }) => line),
    [0, 3],
  );
  assert.deepEqual(
    under.says.filter(({ severity }) => severity === 'error').map(({ line, entry }) => [line, entry]),
    [
      [1, 'date'],
      [2, 'date'],
    ],
  );
  assert.match(
    said('01:00 1\n07:00 2\n13:00 3').join(),
    /^2 height question: neither higher nor lower than both 01:00 and 13:00\./,
  );
  assert.match(
    said('01:00 0.5\n07:00 2 HW\n13:00 2.2 HW').join(),
    /^3 height question: two high waters in a row\. Add the low water/,
  );
  assert.match(
    said('01:00 1.5 LW\n07:00 1.2 HW').join(),
    /^2 height question: said to be a high water, no higher than 01:00/,
  );
  assert.match(said('01:00 1\n03:30 2').join(), /^2 time question: 2\.5 h after 01:00, usually 4 h or more/);
  assert.match(
    said('01:00 1\n13:00 2').join(),
    /^2 time question: 12\.0 h after 01:00, usually 9 h or less.*one high water a day/,
  );
  assert.deepEqual(said('01:00 1\n13:00 2', true), []);
  assert.match(
    said('2024-03-05 07:00 1\n2024-03-05 01:00 2').join(),
    /^2 time question: no later than the line above/,
  );
});

test('access is in columns of the day and comes back; half of it, or what is no number, is none', () => {
  const cells = withWay(way);
  assert.deepEqual(cells, {
    access: 'foot',
    access_level_m: '0.30',
    access_margin_m: '0.30',
    access_minutes: '45',
  });
  assert.deepEqual(wayIn({ note: 'gale', ...cells }), way);
  const boat: Way = { kind: 'boat', level_m: -0.25, margin_m: 0.1, minutes: 20 };
  assert.deepEqual(wayIn(withWay(boat)), boat);
  assert.deepEqual(wayIn({ ...withWay(boat), access_level_m: '−0,25' }), boat);
  for (const [column, cell] of [
    ['access', 'mule'],
    ['access_level_m', ''],
    ['access_margin_m', 'some'],
    ['access_minutes', 'half an hour'],
  ] as const)
    assert.equal(wayIn({ ...cells, [column]: cell }), null, column);
  assert.equal(wayIn({}), null);
});

test('the level of a boat is none of a route: switched, nothing is put in its place', () => {
  const boat: Way = { kind: 'boat', level_m: -0.8, margin_m: 0.4, minutes: 20 };
  assert.deepEqual(switchedTo('foot', boat), { ...boat, kind: 'foot', level_m: Number.NaN });
  assert.ok(Number.isNaN(switchedTo('boat', way).level_m));
});

test('access is kept on the safe side: a route no higher, a boat’s water no lower, margin and time no less', () => {
  const typed = { level_m: 0.406, margin_m: 0.304, minutes: 20.2 };
  assert.deepEqual(asKept({ kind: 'foot', ...typed }), {
    kind: 'foot',
    level_m: 0.4,
    margin_m: 0.31,
    minutes: 21,
  });
  assert.deepEqual(asKept({ kind: 'boat', ...typed }), {
    kind: 'boat',
    level_m: 0.41,
    margin_m: 0.31,
    minutes: 21,
  });
  assert.equal(withWay({ kind: 'foot', ...typed })['access_level_m'], '0.40');
});

test('random tides: access never opens before it is shown to, never closes after, and the leave-by leaves the time: seed 19', () => {
  const stream = randomStream(19);
  let spans = 0;
  for (let i = 0; i < 400; i++) {
    const random = {
      ...site,
      predicted: {
        ...site.predicted,
        tide: {
          mean_m: stream.uniform() - 0.5,
          constants: [
            { constituent: 'M2', amplitude_m: 0.3 + stream.uniform(), phase_deg: 360 * stream.uniform() },
            { constituent: 'K1', amplitude_m: 0.3 * stream.uniform(), phase_deg: 360 * stream.uniform() },
          ],
        },
      },
    };
    const access: Way = {
      kind: stream.uniform() < 0.5 ? 'foot' : 'boat',
      level_m: stream.uniform() - 0.5,
      margin_m: 0.3,
      minutes: Math.floor(60 * stream.uniform()),
    };
    const tide = dayTide(random, '2024-03-05', OFFSET, access)!;
    const isOpen = (time_ms: number): boolean => {
      const h = tide.curve.height_m(time_ms);
      return access.kind === 'foot' ? h < tide.limit_m! : h > tide.limit_m!;
    };
    for (const { from_ms, to_ms, leave_by_ms } of tide.spans) {
      // what the clock on the screen says, to the minute
      if (from_ms !== null) assert.ok(from_ms % 60_000 === 0 && isOpen(from_ms));
      if (to_ms !== null) assert.ok(to_ms % 60_000 === 0 && isOpen(to_ms));
      if (to_ms !== null) assert.ok(leave_by_ms! + access.minutes * 60_000 <= to_ms);
      spans++;
    }
  }
  assert.ok(spans > 300);
});

test('the campaign’s clock is that of its own times', () => {
  assert.equal(offsetIn('2024-03-05T12:00:00-03:30'), -210);
  assert.equal(offsetIn('2024-03-05T12:00Z'), 0);
  assert.equal(offsetIn('−08:00'), -480);
  assert.equal(offsetIn('2024-03-05'), null);
  assert.equal(campaignOffset(['', '2024-03-05T12:00+08:00'], new Date()), 480);
});
