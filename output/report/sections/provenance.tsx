/** What these numbers hang on, so that they can be made again: settings, seed, hash, versions. */
import type { Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';
import { columnName, isTableName, tableWords } from '@stillstand/campaign/tables';
import { AssumedRing } from '../marks.tsx';
import { each } from '../quantity.tsx';

export function Settings({ results }: { results: Results }) {
  if (results.settings.length === 0) return null;
  return (
    <>
      <p className="q">
        <AssumedRing /> marks a default.
      </p>
      <table style={{ maxWidth: '120mm' }}>
        <thead>
          <tr>
            <th>setting</th>
            <th>value</th>
          </tr>
        </thead>
        <tbody>
          {each(results.settings, (setting) => (
            <tr>
              <td>{setting.name}</td>
              <td>
                {setting.assumed ? (
                  <>
                    <AssumedRing /> <span className="assumed">{setting.value}</span>
                  </>
                ) : (
                  setting.value
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** Problems that name what is kept and not used. */
const KEPT = new Set(['not-used-yet', 'unknown-column', 'unknown-table']);

const keptWords = ({ table, column, found }: Problem): string =>
  `${[isTableName(table) ? tableWords(table) : table, column === null || !isTableName(table) ? column : columnName(table, column)].filter(Boolean).join(', ')} (${found})`;

export function Provenance({ results }: { results: Results }) {
  const rows: [string, string][] = [
    ['hash of everything the results depend on', results.inputs],
    ['seed', String(results.seed)],
    ['version of the computation', results.computation],
    ['version of the results file', String(results.version)],
    [
      'datum',
      results.datum.epoch === null ? results.datum.label : `${results.datum.label}, ${results.datum.epoch}`,
    ],
  ];
  const unused = results.problems.filter(({ code }) => KEPT.has(code));
  return (
    <>
      {unused.length === 0 ? null : (
        <p className="q">
          Read and kept, but used by no computation, figure or table yet: {unused.map(keptWords).join('; ')}.
        </p>
      )}
      <p className="q">
        The same campaign, seed and version give the same numbers and the same page, so it bears no date. The
        full tables are in the CSV files with it, every number with its draws in results.json and results.npz.
      </p>
      <table style={{ maxWidth: '150mm' }}>
        <tbody>
          {each(rows, ([what, value]) => (
            <tr>
              <td>{what}</td>
              <td className="hash">{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
