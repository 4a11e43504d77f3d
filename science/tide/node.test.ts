import assert from 'node:assert/strict';
import { test } from 'node:test';
import { meanLongitudes } from './astronomy.ts';
import { type NodeName, nodeCorrections } from './node.ts';

const circle = (degrees: number): number => ((degrees % 360) + 360) % 360;
/** UTC stands for terrestrial time: 70 s of the moon's 0.55° per hour. */
const LONGITUDE_DEG = 0.0005;

test('mean longitudes: worked examples of Meeus 1998 (22.a, 25.a, 47.a; from memory)', () => {
  const close = (found: number, expected: number): void =>
    assert.ok(Math.abs(circle(found) - expected) < LONGITUDE_DEG, `${circle(found)} ${expected}`);
  // 1992 April 12, 0h: moon 134.290182°, its anomaly 5.150833°, so the perigee stands at their difference.
  const april = meanLongitudes(Date.UTC(1992, 3, 12));
  close(april.s_deg, 134.290182);
  close(april.p_deg, 134.290182 - 5.150833);
  // 1992 October 13, 0h: sun 201.80720°.
  close(meanLongitudes(Date.UTC(1992, 9, 13)).h_deg, 201.8072);
  // 1987 April 10, 0h: node 11.2531°.
  close(meanLongitudes(Date.UTC(1987, 3, 10)).N_deg, 11.2531);
  assert.equal(circle(meanLongitudes(Date.UTC(2024, 0, 1, 12)).T_deg), 0);
});

// Doodson's series as in Pugh 1987, table 4:3 (from memory): cosines of N, 2N, 3N for f, sines for u, degrees.
const SERIES: Readonly<Partial<Record<NodeName, { f: number[]; u: number[]; within: number }>>> = {
  M2: { f: [1.0004, -0.0373, 0.0002], u: [-2.14], within: 0.0005 },
  K1: { f: [1.006, 0.115, -0.0088, 0.0006], u: [-8.86, 0.68, -0.07], within: 0.0005 },
  O1: { f: [1.0089, 0.1871, -0.0147, 0.0014], u: [10.8, -1.34, 0.19], within: 0.001 },
  K2: { f: [1.0241, 0.2863, 0.0083, -0.0015], u: [-17.74, 0.68, -0.04], within: 0.002 },
  MF: { f: [1.0429, 0.4135, -0.004], u: [-23.74, 2.68, -0.38], within: 0.001 },
  MM: { f: [1, -0.13, 0.0013], u: [], within: 0.0005 },
};
/** The series of K2 stops early; the others agree within 0.06°. */
const ANGLE_DEG = 0.15;

test('node corrections agree with another man’s series at every node', () => {
  for (let N = 0; N < 360; N += 5) {
    const found = nodeCorrections(N, 0);
    for (const [name, { f, u, within }] of Object.entries(SERIES)) {
      const turn = (N * Math.PI) / 180;
      const factor = f.reduce((sum, a, k) => sum + a * Math.cos(k * turn), 0);
      const angle = u.reduce((sum, a, k) => sum + a * Math.sin((k + 1) * turn), 0);
      const { f: ours, u_deg } = found[name as NodeName];
      assert.ok(Math.abs(ours - factor) < within, `f ${name} ${N}: ${ours} ${factor}`);
      assert.ok(Math.abs(u_deg - angle) < ANGLE_DEG, `u ${name} ${N}: ${u_deg} ${angle}`);
    }
  }
});

test('the perigee moves L2 and M1, and nothing else; their angles stay whole over its turn', () => {
  const before = nodeCorrections(40, 0);
  let L2 = before.L2.u_deg;
  let M1 = before.M1.u_deg;
  for (let p = 1; p <= 360; p++) {
    const now = nodeCorrections(40, p);
    for (const name of ['M2', 'O1', 'K1', 'K2', 'J1', 'OO1', 'MF', 'MM', 'M3'] as const) {
      assert.deepEqual(now[name], before[name]);
    }
    const step = (a: number, b: number): number => Math.abs(circle(a - b + 180) - 180);
    assert.ok(step(now.L2.u_deg, L2) < 3);
    assert.ok(step(now.M1.u_deg, M1) < 3);
    L2 = now.L2.u_deg;
    M1 = now.M1.u_deg;
  }
  assert.ok(Math.abs(circle(M1 - before.M1.u_deg + 180) - 180) < 1e-9);
});
