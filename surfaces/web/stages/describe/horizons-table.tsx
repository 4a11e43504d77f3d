/** Named horizons: in which holes each is found, and how high. */
import type { Results } from '@stillstand/campaign/results';
import { signed, Table } from '../../parts/index.ts';

export function HorizonsTable({ results: { horizons, datum } }: { results: Results }) {
  if (horizons.length === 0) return null;
  return (
    <Table
      caption="Horizons"
      columns={[{ name: 'name' }, { name: `base of unit, elevation above ${datum.label}`, unit: 'm' }]}
    >
      {horizons.map(({ horizon, contacts }) => (
        <tr key={horizon}>
          <td>{horizon}</td>
          <td>
            {contacts
              .map(
                ({ hole, unit, elevation_m }) =>
                  `${hole} unit ${unit}${elevation_m === null ? '' : ` ${signed(elevation_m.value, 2)}`}`,
              )
              .join(', ')}
          </td>
        </tr>
      ))}
    </Table>
  );
}
