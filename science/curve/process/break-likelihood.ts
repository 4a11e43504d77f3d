/** What one break more of the rate would do for the heights, wherever it is: one walk along all nodes. */
import { log } from '@stillstand/science/base';
import { forward, type Messages, meet, restart } from './messages.ts';
import { type Rates, withBreak } from './rates.ts';

/**
 * Log of what all older heights make of what the younger ones predict, over the gap between two neighbours walked from one
 * to the other under `rates`: ∫ N(x; m, S) e^(−½xᵀΛx + ηᵀx) dx, up to a constant that the gap does not change.
 */
function logMeeting(m: Messages, rates: Rates, younger: number, older: number): number {
  meet(m, rates, younger, older);
  const s = m.ahead;
  const x0 = s[6]!;
  const x1 = s[7]!;
  const x2 = s[8]!;
  const l = m.information;
  const i = 6 * older;
  const e = 3 * older;
  const g0 = l[i]! * x0 + l[i + 1]! * x1 + l[i + 2]! * x2;
  const g1 = l[i + 1]! * x0 + l[i + 3]! * x1 + l[i + 4]! * x2;
  const g2 = l[i + 2]! * x0 + l[i + 4]! * x1 + l[i + 5]! * x2;
  const n0 = m.eta[e]!;
  const n1 = m.eta[e + 1]!;
  const n2 = m.eta[e + 2]!;
  const h0 = n0 - g0;
  const h1 = n1 - g1;
  const h2 = n2 - g2;
  const [u0, u1, u2] = [m.made[0]!, m.made[1]!, m.made[2]!];
  return (
    x0 * (n0 - 0.5 * g0) +
    x1 * (n1 - 0.5 * g1) +
    x2 * (n2 - 0.5 * g2) +
    0.5 *
      (h0 * (s[0]! * u0 + s[1]! * u1 + s[2]! * u2) +
        h1 * (s[1]! * u0 + s[3]! * u1 + s[4]! * u2) +
        h2 * (s[2]! * u0 + s[4]! * u1 + s[5]! * u2)) -
    0.5 * log(m.made[9]!)
  );
}

/**
 * By how much one more break at each of some ages (ka, ascending) changes the log likelihood of the heights: one walk along
 * all nodes. Beyond the outermost nodes it changes nothing. `more`: room for the rates with one break more. The messages
 * must be restarted after it.
 */
export function breakLikelihoods(
  m: Messages,
  rates: Rates,
  more: Rates,
  break_ka: Float64Array,
  out: Float64Array,
): void {
  restart(m, rates, false);
  const { order, age_ka } = m.o;
  out.fill(0);
  let at = 0;
  while (at < break_ka.length && break_ka[at]! <= age_ka[order[0]!]!) at++;
  for (let k = 0; k < order.length - 1 && at < break_ka.length; k++) {
    const younger = order[k]!;
    const older = order[k + 1]!;
    forward(m, younger, k > 0 ? order[k - 1]! : -1);
    if (break_ka[at]! >= age_ka[older]!) continue;
    const without = logMeeting(m, rates, younger, older);
    for (; at < break_ka.length && break_ka[at]! < age_ka[older]!; at++) {
      withBreak(rates, break_ka[at]!, more);
      out[at] = logMeeting(m, more, younger, older) - without;
    }
  }
}
