import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, readFiles } from '@stillstand/campaign/document';
import { tideCurve } from '@stillstand/science/tide';
import { siteTide } from './site-tide.ts';

const campaignOf = (tables: Record<string, string>) =>
  parseCampaign(
    readFiles(
      new Map(Object.entries(tables).map(([name, csv]) => [`${name}.csv`, new TextEncoder().encode(csv)])),
    ).document,
  ).campaign;

const TABLES = {
  sites: 'site\nS\nFar\n',
  datums: 'datum,kind\nMSL,mean_sea_level\nOld,local\n',
  datum_shifts: 'from,to,shift_m\nOld,MSL,-0.7\n',
  gauges: 'gauge,site,datum,zero_m\nPole,S,Old,-1\nTable,S,MSL,-1.6\nElsewhere,Far,MSL,0\n',
  constituents: 'gauge,constituent,amplitude_m,phase_deg\nElsewhere,M2,3,10\nPole,M2,1,40\nPole,S2,0.2,60\n',
};

test('constants of the site’s own gauge about the mean level of the datum', () => {
  const { predicted, needs } = siteTide(campaignOf(TABLES), 'S', 'MSL');
  assert.deepEqual(needs, []);
  assert.equal(predicted!.gauge, 'Pole');
  assert.deepEqual(predicted!.constituents, ['M2', 'S2']);
  assert.equal(predicted!.tide.mean_m, 0);
  assert.deepEqual(tideCurve(predicted!.tide).unknown, []);
});

test('the mean level: Z0 above the gauge zero first, else the tide level MSL, each brought to the datum', () => {
  const withZ0 = { ...TABLES, constituents: `${TABLES.constituents}Pole,Z0,1.8,0\n` };
  // −1 on Old is −1.7 on MSL.
  assert.ok(Math.abs(siteTide(campaignOf(withZ0), 'S', 'MSL').predicted!.tide.mean_m - 0.1) < 1e-9);
  const withLevel = { ...TABLES, tide_levels: 'site,level,datum,elevation_m\nS,MSL,Old,0.75\n' };
  const { tide } = siteTide(campaignOf(withLevel), 'S', 'MSL').predicted!;
  assert.ok(Math.abs(tide.mean_m - 0.05) < 1e-9);
  // The usual sigma of a level that states none.
  assert.equal(tide.mean_sigma_m, 0.05);
  const lost = siteTide(campaignOf(TABLES), 'S', 'Old');
  assert.equal(lost.predicted, null);
  assert.deepEqual(lost.needs, ['mean sea level (MSL) on Old, among the tide levels']);
  assert.deepEqual(siteTide(campaignOf({ ...TABLES, constituents: '' }), 'S', 'MSL').needs, [
    'tidal constants of a gauge at the site',
  ]);
});

test('errors stated of constants, mean level, zero and steps come with the tide', () => {
  const tables = {
    ...TABLES,
    datum_shifts: 'from,to,shift_m,sigma_m\nOld,MSL,-0.7,0.03\n',
    gauges: 'gauge,site,datum,zero_m,sigma_m\nPole,S,Old,-1,0.04\n',
    constituents:
      'gauge,constituent,amplitude_m,phase_deg,amplitude_sigma_m,phase_sigma_deg\nPole,M2,1,40,0.02,1.5\nPole,S2,0.2,60,,\n',
  };
  const tideOf = (of: typeof tables & { tide_levels?: string }) =>
    siteTide(campaignOf(of), 'S', 'MSL').predicted!.tide;
  const { constants, mean_sigma_m } = tideOf(tables);
  assert.deepEqual(
    constants.map((c) => [c.constituent, c.amplitude_sigma_m, c.phase_sigma_deg]),
    [
      ['M2', 0.02, 1.5],
      ['S2', null, null],
    ],
  );
  assert.equal(mean_sigma_m, 0);
  const withLevel = { ...tables, tide_levels: 'site,level,datum,elevation_m,sigma_m\nS,MSL,Old,0.75,0.04\n' };
  assert.ok(Math.abs(tideOf(withLevel).mean_sigma_m! - 0.05) < 1e-12);
  // Zero of the gauge 0.04, step 0.03, Z0 0.12.
  const withZ0 = { ...tables, constituents: `${tables.constituents}Pole,Z0,1.8,0,0.12,\n` };
  assert.ok(Math.abs(tideOf(withZ0).mean_sigma_m! - 0.13) < 1e-12);
});

test('waters of an official table, in order of time, on the datum; no readings of a pole, none without its offset', () => {
  const { waters } = siteTide(
    campaignOf({
      ...TABLES,
      gauge_readings:
        'gauge,seq,time,height_m,flag\nTable,1,2024-03-05T12:10+08:00,2.9,tide table: high\nTable,2,2024-03-05T06:00+08:00,0.7,tide table: low\nTable,3,2024-03-04T22:00Z,0.4,tide table: low\nTable,4,2024-03-05T18:20,3.1,tide table: high\nPole,1,2024-03-05T08:00+08:00,1,\nElsewhere,1,2024-03-05T08:00+08:00,1,tide table\n',
    }),
    'S',
    'MSL',
  );
  assert.deepEqual(
    waters.map(({ time_ms, height_m }) => [new Date(time_ms).toISOString(), height_m.toFixed(2)]),
    [
      ['2024-03-04T22:00:00.000Z', '-1.20'],
      ['2024-03-05T04:10:00.000Z', '1.30'],
    ],
  );
});
