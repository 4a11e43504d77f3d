/** Grain size of a hole: parts, name and graphic statistics of each analysis, held against what was described there. */
import { type GrainSizeResult, type Results, traceId } from '@stillstand/campaign/results';
import { Quantity, Table } from '../../../parts/index.ts';
import { percent } from './quantities.tsx';

export function GrainSizes({ results, hole }: { results: Results; hole: string }) {
  const sizes = results.grain_sizes
    .filter((size) => size.hole === hole)
    .toSorted((a, b) => (a.depth_m?.value ?? Infinity) - (b.depth_m?.value ?? Infinity));
  if (sizes.length === 0) return null;
  const units = results.holes.find((each) => each.hole === hole)?.units ?? [];
  const describedAt = ({ depth_m }: GrainSizeResult): string =>
    units.find(
      ({ depth_top_m, depth_bottom_m }) =>
        depth_m !== null && depth_top_m.value <= depth_m.value && depth_m.value < depth_bottom_m.value,
    )?.sediment ?? '';
  return (
    <section className="panel-part" aria-label="Grain size">
      <h2>Grain size</h2>
      <Table
        caption="Mean and sorting of Folk & Ward 1957"
        columns={[
          { name: 'depth', unit: 'm', number: true },
          { name: 'name, described as' },
          { name: 'mean', unit: 'φ', number: true },
          { name: 'sorting', number: true },
          { name: 'gravel', number: true },
          { name: 'sand', number: true },
          { name: 'silt', number: true },
          { name: 'clay', unit: '%', number: true },
        ]}
      >
        {sizes.map((size) => (
          <tr key={size.row_id}>
            <td className="number">
              <Quantity value={size.depth_m?.value ?? null} decimals={2} />
            </td>
            <td>
              {size.name ?? (size.open_fine_percent === null ? 'classes do not sum' : 'no name')}
              <br />
              <span className="quiet">{describedAt(size)}</span>
            </td>
            <td className="number">
              <Quantity
                value={size.folk_ward?.mean_phi ?? size.median_phi}
                sigma={size.folk_ward === null ? size.median_sigma_phi : size.folk_ward.mean_sigma_phi}
                decimals={2}
                id={traceId.grainSize(size.row_id)}
              />
              {size.folk_ward === null && size.median_phi !== null ? (
                <>
                  <br />
                  <span className="quiet">median</span>
                </>
              ) : null}
            </td>
            <td className="number">
              <Quantity value={size.folk_ward?.sorting_phi ?? null} decimals={2} />
            </td>
            {[size.gravel_percent, size.sand_percent, size.silt_percent, size.clay_percent].map((part, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the four parts stay in their places
              <td key={i} className="number">
                {percent(part)}
              </td>
            ))}
          </tr>
        ))}
      </Table>
    </section>
  );
}
