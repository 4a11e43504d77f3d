/** Positions of sites and holes, as a campaign has them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { positionProblems } from './index.ts';

/** Codes, and what is found and to be done, of the holes behind two that lie as they should. */
function said(...holes: Record<string, string>[]): { code: string; label: string | null; words: string }[] {
  const near = [
    { hole: 'T1', method: 'string', latitude_deg: '-46.41', longitude_deg: '-121.31' },
    { hole: 'T2', method: 'string', latitude_deg: '-46.412', longitude_deg: '-121.312' },
  ];
  const rows = [...near, ...holes.map((hole) => ({ method: 'string', ...hole }))];
  const { campaign } = parseCampaign(withRows(newDocument('positions'), 'holes', rows));
  return positionProblems(campaign).map(({ code, label, found, expected, fix }) => ({
    code,
    label,
    words: `${found}; ${expected}. ${fix}`,
  }));
}
const codes = (...holes: Record<string, string>[]): string[] => said(...holes).map(({ code }) => code);

test('degrees and the writing they come from agree, or both are kept and it is said', () => {
  // 24.653′ and 18.891′ are 0.4108833° and 0.31485°.
  const written = '46° 24.653′ S 121° 18.891′ W';
  const of = (latitude_deg: string) => ({
    hole: 'T3',
    latitude_deg,
    longitude_deg: '-121.31485',
    position_as_written: written,
  });
  assert.deepEqual(said(of('-46.4108833')), []);
  // The last digit counts 1.9 m: 3 m off is within what two writings may differ by, 11 m is not.
  assert.deepEqual(codes(of('-46.41086')), []);
  assert.deepEqual(codes(of('-46.4110')), ['position-written-otherwise']);
  const [none] = said({ hole: 'T3', position_as_written: written });
  assert.equal(none?.code, 'position-written-otherwise');
  assert.match(none!.words, /degrees of it: −46\.41088, −121\.31485/);
});

test('a zone that may be two is either', () => {
  const grid = { hole: 'T3', position_as_written: '10S 475811 3860093' };
  for (const latitude_deg of ['34.8829311', '-55.4048195'])
    assert.ok(
      !codes({
        ...grid,
        latitude_deg,
        longitude_deg: latitude_deg.startsWith('3') ? '-123.2647' : '-123.382',
      }).includes('position-not-read'),
    );
});

test('what cannot be read, half a position, and what lies where no other does', () => {
  assert.deepEqual(codes({ hole: 'T3', position_as_written: 'by the old pier' }), ['position-not-read']);
  assert.deepEqual(codes({ hole: 'T3', latitude_deg: '-46.41' }), ['half-a-position']);
  const [far] = said({ hole: 'T3', latitude_deg: '46.411', longitude_deg: '-121.311' });
  assert.equal(far?.code, 'position-far-off');
  assert.match(far!.words, /the other side of the equator.* 0\.1 km from the nearest/);
  // 40 km and a thousand away, and no slip that explains it: another coast of the campaign.
  assert.deepEqual(codes({ hole: 'T3', latitude_deg: '-46.05', longitude_deg: '-121.31' }), []);
  assert.deepEqual(codes({ hole: 'T3', latitude_deg: '-37.5', longitude_deg: '-121.31' }), []);
  assert.deepEqual(codes(), []);
});

test('easting and northing are held against the degrees in the grid of the campaign', () => {
  const found = (value: string, ...holes: Record<string, string>[]): string[] => {
    const rows = withRows(newDocument('grid'), 'settings', [{ name: 'position_grid', value }]);
    const { campaign } = parseCampaign(
      withRows(
        rows,
        'holes',
        holes.map((hole) => ({ hole: 'G1', method: 'string', ...hole })),
      ),
    );
    return positionProblems(campaign).map(({ code }) => code);
  };
  // Worked example of oblique stereographic, EPSG Guidance Note 7-2, on its own ellipsoid.
  const proj =
    '+proj=sterea +lat_0=52.1561605555556 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000 +ellps=bessel';
  const written = { position_as_written: '196105.28 557057.74' };
  assert.deepEqual(found(proj, { latitude_deg: '53', longitude_deg: '6', ...written }), []);
  assert.deepEqual(found(proj, { latitude_deg: '53.001', longitude_deg: '6', ...written }), [
    'position-written-otherwise',
  ]);
  // In another grid the same numbers are another place.
  assert.deepEqual(found('EPSG:28992', { latitude_deg: '53', longitude_deg: '6', ...written }), [
    'position-written-otherwise',
  ]);
  assert.deepEqual(found('Sand', { latitude_deg: '53', longitude_deg: '6', ...written }), [
    'grid-not-read',
    'position-not-read',
  ]);
  // 300 km east of the middle of zone 10 at 46° S is 3.9° of longitude, outside its 3°.
  const outside = {
    latitude_deg: '-46.3462212',
    longitude_deg: '-119.1011212',
    position_as_written: '800000 4860093',
  };
  assert.deepEqual(found('EPSG:32710', outside), ['position-outside-grid']);
});
