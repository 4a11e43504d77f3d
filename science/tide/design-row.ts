/** What one reading sees of the tide: 1, f·cos(V + u), f·sin(V + u) of each constituent. */
import { cos, sin } from '@stillstand/science/base';
import { meanLongitudes } from './astronomy.ts';
import type { Constituent } from './constituent.ts';
import { nodeCorrections } from './node.ts';
import { argumentAt } from './prediction.ts';

const RAD = Math.PI / 180;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Fills 1, f·cos(V + u), f·sin(V + u), … for a moment; node corrections are those of its day. */
export function designRow(
  constituents: readonly Constituent[],
): (time_ms: number, row: Float64Array) => void {
  let midnight = Number.NaN;
  let at: { f: number; u_deg: number }[] = [];
  return (time_ms, row) => {
    const day = Math.floor(time_ms / DAY_MS) * DAY_MS;
    if (day !== midnight) {
      midnight = day;
      const noon = meanLongitudes(day + DAY_MS / 2);
      const nodes = nodeCorrections(noon.N_deg, noon.p_deg);
      const longitudes = meanLongitudes(day);
      at = constituents.map((constituent) => argumentAt(constituent, longitudes, nodes));
    }
    row[0] = 1;
    const hours = (time_ms - midnight) / HOUR_MS;
    for (let k = 0; k < constituents.length; k++) {
      const { f, u_deg } = at[k]!;
      const angle = ((u_deg + constituents[k]!.speed_deg_h * hours) % 360) * RAD;
      row[1 + 2 * k] = f * cos(angle);
      row[2 + 2 * k] = f * sin(angle);
    }
  };
}
