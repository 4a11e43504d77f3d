import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, readFiles } from '@stillstand/campaign/document';
import { gaugeRecords } from './gauge-record.ts';

test('the record of a gauge: in order of time, without what is flagged, amended or timeless', () => {
  const csv = [
    'gauge,seq,time,height_m,flag,row_id,amends,amend_kind',
    'P,1,2024-03-05T10:00+08:00,1.5,,a,,',
    'P,2,2024-03-05T09:00+08:00,1.2,,b,,',
    'P,3,2024-03-05T11:00+08:00,9,wash of a ship,c,,',
    'P,4,,1.1,,d,,',
    'P,1,2024-03-05T10:00+08:00,1.6,,e,a,replace',
    'Q,1,2024-03-05T10:00+08:00,0.3,,f,,',
  ].join('\n');
  const { campaign } = parseCampaign(
    readFiles(
      new Map(
        Object.entries({ gauges: 'gauge\nP\nQ\n', gauge_readings: csv }).map(([name, text]) => [
          `${name}.csv`,
          new TextEncoder().encode(text),
        ]),
      ),
    ).document,
  );
  assert.deepEqual(
    gaugeRecords(campaign).map(({ gauge, time_ms, height_m }) => [
      gauge,
      [...time_ms].map((time) => new Date(time).toISOString().slice(11, 16)),
      [...height_m],
    ]),
    [
      ['P', ['01:00', '02:00'], [1.2, 1.6]],
      ['Q', ['02:00'], [0.3]],
    ],
  );
});
