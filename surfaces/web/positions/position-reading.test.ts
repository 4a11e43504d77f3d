/** What stands under the field of a position. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { positionSaid, writtenPosition } from './position-reading.ts';

const T1 = { label: 'T1', latitude_deg: -46.41, longitude_deg: -121.31 };

test('decimal degrees are the cells themselves; another writing is kept next to them', () => {
  const plain = positionSaid('−46.41088, −121.31485', [T1]);
  assert.deepEqual(plain.cells, {
    latitude_deg: '-46.41088',
    longitude_deg: '-121.31485',
    position_as_written: '',
  });
  assert.equal(writtenPosition(plain.cells), '−46.41088, −121.31485');
  const minutes = positionSaid(' 46 24.653 S 121 18.891 W', [T1]);
  assert.deepEqual(minutes.cells, {
    latitude_deg: '-46.4108833',
    longitude_deg: '-121.31485',
    position_as_written: '46 24.653 S 121 18.891 W',
  });
  assert.equal(writtenPosition(minutes.cells), '46 24.653 S 121 18.891 W');
  // 0.000883° of latitude is 98 m, 0.00485° of longitude at 46.4° is 373 m: 386 m.
  assert.match(minutes.words ?? '', /46° 24\.653′ S, 121° 18\.891′ W; 38[5-7] m from T1\.$/);
  assert.deepEqual([minutes.cautions, minutes.instead, minutes.fault], [[], [], null]);
});

test('what cannot be read keeps what was typed; nothing is nothing', () => {
  const said = positionSaid('46 61 S 121 18 W', []);
  assert.match(said.fault ?? '', /below 60/);
  assert.deepEqual(said.cells, {
    latitude_deg: '',
    longitude_deg: '',
    position_as_written: '46 61 S 121 18 W',
  });
  assert.deepEqual(Object.values(positionSaid('  ', []).cells), ['', '', '']);
});

test('coarse, far, exchanged: a caution, and one press', () => {
  assert.match(positionSaid('46.4 S 121.3 W', [T1]).cautions.join(' '), /last digit counts 11 km/);
  const far = positionSaid('46.41, -121.31', [T1]);
  assert.match(far.cautions.join(' '), /km from T1, the nearest/);
  assert.deepEqual(
    far.instead.map(({ cells }) => [cells.latitude_deg, cells.longitude_deg]),
    [['-46.41', '-121.31']],
  );
  // Nothing near to judge by: the other order is offered.
  assert.match(positionSaid('52.1, 4.9', []).instead[0]?.words ?? '', /^Read as longitude, latitude: 4° 54/);
  assert.deepEqual(
    positionSaid('10S 475811 3860093', []).instead.map(({ words }) => /band S/.test(words)),
    [true],
  );
});
