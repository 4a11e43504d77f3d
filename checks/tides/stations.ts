/** The two stations of data/stations.csv: constants, and datums above mean sea level. */
import { readFileSync } from 'node:fs';
import type { Tide } from '@stillstand/science/tide';

export interface Station {
  name: string;
  /** Above mean sea level. */
  tide: Tide;
  /** Datums and ranges as published, metres above station zero. */
  published: Readonly<Record<string, number>>;
  speeds: ReadonlyMap<string, number>;
}

const lines = readFileSync(new URL('data/stations.csv', import.meta.url), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1);

export const STATIONS: readonly Station[] = ['BOSTON', 'SAN FRANCISCO (Golden Gate)'].map((name) => {
  const rows = lines.map((line) => line.split(',')).filter((cells) => cells[1] === name);
  const constants = rows.filter((cells) => cells[2] === 'constituent');
  return {
    name,
    tide: {
      mean_m: 0,
      constants: constants.map(([, , , constituent, amplitude, phase]) => ({
        constituent: constituent!,
        amplitude_m: Number(amplitude),
        phase_deg: Number(phase),
      })),
    },
    published: Object.fromEntries(
      rows.filter((cells) => cells[2] !== 'constituent').map((cells) => [cells[3]!, Number(cells[4])]),
    ),
    speeds: new Map(constants.map((cells) => [cells[3]!, Number(cells[6])])),
  };
});
