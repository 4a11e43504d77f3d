/** Grain size of samples: parts, name and graphic statistics; what lies in a class without an end is left out. */
import { type GrainSizeResult, type Results, traceId } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';

/** More are in grain_sizes.csv. */
const MOST = 60;

export function GrainSizes({ results: { grain_sizes } }: { results: Results }) {
  const whole = grain_sizes.filter((size) => size.open_fine_percent !== null);
  if (whole.length === 0) return null;
  const shown = whole.slice(0, MOST);
  return (
    <>
      <h3>Grain size</h3>
      <table>
        <thead>
          <tr>
            <th>hole</th>
            <th className="n">depth, m</th>
            <th>sediment by its parts</th>
            <th className="n">gravel, %</th>
            <th className="n">sand</th>
            <th className="n">silt</th>
            <th className="n">clay</th>
            <th className="n">median, phi</th>
            <th className="n">mean</th>
            <th className="n">sorting</th>
            <th className="n">skewness</th>
            <th className="n">kurtosis</th>
          </tr>
        </thead>
        <tbody>{each(shown, row)}</tbody>
      </table>
      <p className="q">
        Mean, sorting, skewness and kurtosis of Folk & Ward 1957 in phi; a dash is what a class without an end
        leaves unknown. {whole.length > MOST ? `${whole.length - MOST} more are in grain_sizes.csv. ` : ''}
        {grain_sizes.length > whole.length
          ? `${grain_sizes.length - whole.length} without statistics: their classes do not sum to 100 %.`
          : ''}
      </p>
    </>
  );
}

const part = (percent: number | null): string => (percent === null ? '–' : printed(percent, 1));
const phi = (value: number | null | undefined): string => printed(value ?? null, 2);

function row(size: GrainSizeResult) {
  const { hole, sample, depth_m, name, folk_ward } = size;
  return (
    <tr>
      <td className="id">{hole ?? sample ?? ''}</td>
      <td className="n">{printed(depth_m?.value ?? null, 2)}</td>
      <td>{name ?? 'no name'}</td>
      <td className="n">{part(size.gravel_percent)}</td>
      <td className="n">{part(size.sand_percent)}</td>
      <td className="n">{part(size.silt_percent)}</td>
      <td className="n">{part(size.clay_percent)}</td>
      <td className="n">{phi(size.median_phi)}</td>
      <td className="n">
        {folk_ward === null ? (
          '–'
        ) : (
          <>
            <From id={traceId.grainSize(size.row_id)}>{phi(folk_ward.mean_phi)}</From>
            {folk_ward.mean_sigma_phi === null ? '' : ` ±${phi(2 * folk_ward.mean_sigma_phi)}`}
          </>
        )}
      </td>
      <td className="n">{phi(folk_ward?.sorting_phi)}</td>
      <td className="n">{phi(folk_ward?.skewness)}</td>
      <td className="n">{phi(folk_ward?.kurtosis)}</td>
    </tr>
  );
}
