/** Reference and ground of every hole on the campaign's datum, each with where it comes from. */
import { traceId } from '@stillstand/campaign/results';
import { useComputation } from '../../../compute/index.ts';
import { Quantity, Table } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import '../rows-table.css';

export function References() {
  const { results } = useComputation();
  const openRow = useOpenRow();
  const holes = results?.holes ?? [];
  if (holes.length === 0) return null;
  return (
    <section className="rows">
      <Table
        caption={
          <>
            References and ground <small>± is 2 sd; above {results?.datum.label || 'the datum'}</small>
          </>
        }
        columns={[
          { name: 'hole' },
          { name: 'reference', unit: 'm', number: true },
          { name: 'ground', unit: 'm', number: true },
          { name: 'along section', unit: 'm', number: true },
          { name: 'state' },
        ]}
      >
        {holes.map((hole) => (
          <tr key={hole.row_id}>
            <th scope="row">
              <button
                type="button"
                className="row-name"
                onClick={() => openRow({ table: 'holes', row_id: hole.row_id })}
              >
                {hole.hole}
              </button>
            </th>
            <td className="number">
              <Quantity
                value={hole.reference_elevation_m?.value ?? null}
                sigma={hole.reference_elevation_m?.sigma ?? null}
                sign
                decimals={2}
                id={traceId.hole(hole.hole).reference}
              />
            </td>
            <td className="number">
              <Quantity
                value={hole.ground_elevation_m?.value ?? null}
                sigma={hole.ground_elevation_m?.sigma ?? null}
                sign
                decimals={2}
                id={traceId.hole(hole.hole).ground}
              />
            </td>
            <td className="number">
              <Quantity value={hole.section_m} decimals={0} />
            </td>
            <td>{hole.state ?? ''}</td>
          </tr>
        ))}
      </Table>
    </section>
  );
}
