/** Holes: how deep, how much came in, what was left behind. */
import { type HoleResult, type Results, traceId } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { each, ValueCells, words } from '../quantity.tsx';

export function Holes({ results }: { results: Results }) {
  const { holes, datum } = results;
  if (holes.length === 0) return <p>No hole is recorded.</p>;
  return (
    <table>
      <thead>
        <tr>
          <th>hole</th>
          <th>made by</th>
          <th>state</th>
          <th className="n" colSpan={2}>
            ground, m above {datum.label}
          </th>
          <th className="n">penetration, m</th>
          <th className="n">entered, m</th>
          <th className="n">pipe recovery</th>
          <th className="n">runs</th>
          <th className="n">units</th>
          <th>left in the ground</th>
        </tr>
      </thead>
      <tbody>
        {each(holes, (hole) => (
          <tr>
            <td className="id">{hole.hole}</td>
            <td>{words(hole.method)}</td>
            <td>{stateOf(hole)}</td>
            <ValueCells
              value={hole.ground_elevation_m?.value ?? null}
              twoSigma={hole.ground_elevation_m === null ? null : 2 * hole.ground_elevation_m.sigma}
              from={traceId.hole(hole.hole).ground}
            />
            <td className="n">{printed(hole.penetration_m, 2)}</td>
            <td className="n">{printed(hole.entered_m, 2)}</td>
            <td className="n">{printed(hole.recovery, 2)}</td>
            <td className="n">{hole.runs.length}</td>
            <td className="n">{hole.units.length}</td>
            <td>{hole.left_in_ground ?? ''}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** How much was lost on the way into the pipe, and where nothing entered at all. */
export function Shortening({ holes }: { holes: readonly HoleResult[] }) {
  const shortened = holes.filter((hole) => hole.shortening !== null);
  const gaps = holes.filter((hole) => hole.not_represented.length > 0);
  return (
    <>
      {shortened.length === 0 ? null : (
        <>
          <h3>Shortening</h3>
          <table className="whole" style={{ maxWidth: '170mm' }}>
            <thead>
              <tr>
                <th>hole</th>
                <th className="n" colSpan={2}>
                  recovery at the ground
                </th>
                <th className="n" colSpan={2}>
                  loss decays over, m
                </th>
                <th className="n" colSpan={2}>
                  contrast of layers
                </th>
                <th className="n">friction of the plug, probability</th>
                <th className="n" colSpan={2}>
                  by-passed, m
                </th>
              </tr>
            </thead>
            <tbody>
              {each(shortened, ({ hole, shortening }) => (
                <tr>
                  <td className="id">{hole}</td>
                  <ValueCells
                    value={shortening?.recovery_at_ground.value ?? null}
                    from={traceId.hole(hole).depth}
                    twoSigma={2 * (shortening?.recovery_at_ground.sigma ?? Number.NaN)}
                    unsigned
                  />
                  <ValueCells
                    value={shortening?.length_m.value ?? null}
                    twoSigma={2 * (shortening?.length_m.sigma ?? Number.NaN)}
                    least={1}
                    unsigned
                  />
                  <ValueCells
                    value={shortening?.layer_sd.value ?? null}
                    twoSigma={2 * (shortening?.layer_sd.sigma ?? Number.NaN)}
                    unsigned
                  />
                  <td className="n">{printed(shortening?.friction_probability ?? Number.NaN, 2)}</td>
                  <ValueCells
                    value={shortening?.by_passed_m.value ?? null}
                    twoSigma={2 * (shortening?.by_passed_m.sigma ?? Number.NaN)}
                    unsigned
                  />
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {gaps.length === 0 ? null : (
        <p style={{ marginTop: '7pt' }}>
          Not represented, because nothing entered there (in-situ depth, m):{' '}
          {gaps
            .map((hole) => {
              const parts = hole.not_represented.map(
                (gap) => `${printed(gap.top_m, 2)} to ${printed(gap.bottom_m, 2)}`,
              );
              return `${hole.hole} ${parts.join(', ')}`;
            })
            .join('; ')}
          .
        </p>
      )}
    </>
  );
}

function stateOf(hole: HoleResult): string {
  const state = hole.state === null ? '' : words(hole.state);
  const parts = [state, hole.end_reason === hole.state ? null : hole.end_reason];
  if (hole.replaces !== null) parts.push(`replaces ${hole.replaces}`);
  return parts.filter((part) => part !== null && part !== '').join(', ');
}
