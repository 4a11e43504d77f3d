/** Dose rates computed from contents, with what they are made of; and, in words, the figures they were computed with. */
import { type DoseRateResult, type Results, traceId } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';

export function DoseRates({ results: { dose_rates } }: { results: Results }) {
  if (dose_rates.length === 0) return null;
  return (
    <>
      <p className="q">
        Dose rates computed from contents, Gy/ka with 1 sd; of it shared: what samples of one place have in
        common.
      </p>
      <table>
        <thead>
          <tr>
            <th>laboratory code</th>
            <th className="n">dose rate</th>
            <th className="pm">1 sd</th>
            <th className="n">of it shared</th>
            <th className="n">alpha</th>
            <th className="n">beta</th>
            <th className="n">gamma</th>
            <th className="n">cosmic</th>
            <th className="n">internal</th>
            <th>largest error</th>
          </tr>
        </thead>
        <tbody>
          {each(dose_rates, (rate) => (
            <tr>
              <td className="id">{rate.lab_code}</td>
              <td className="n">
                <From id={traceId.doseRate(rate.lab_code)}>{printed(rate.rate_gy_ka, 3)}</From>
              </td>
              <td className="pm">±{printed(rate.rate_sigma_gy_ka, 3)}</td>
              <td className="n">±{printed(rate.shared_sigma_gy_ka, 3)}</td>
              <td className="n">{printed(rate.alpha_gy_ka, 3)}</td>
              <td className="n">{printed(rate.beta_gy_ka, 3)}</td>
              <td className="n">{printed(rate.gamma_gy_ka, 3)}</td>
              <td className="n">{printed(rate.cosmic_gy_ka, 3)}</td>
              <td className="n">{printed(rate.internal_gy_ka, 3)}</td>
              <td>{rate.errors[0]?.of ?? 'none'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** "Two dose rates were computed from …, with the factors guerin2011 (…)"; empty where there is none. */
export function doseRatesInWords(rates: readonly DoseRateResult[]): string {
  if (rates.length === 0) return '';
  const tables = [...new Set(rates.map(({ factors }) => factors))];
  const figures = new Map(rates.flatMap((rate) => rate.figures.map((each) => [each.name, each] as const)));
  const sources = [...figures.values()].map(
    ({ name, source, from_memory }) =>
      `${name}: ${source}${from_memory ? ', from memory and not yet compared with the print' : ''}`,
  );
  const what = rates.length === 1 ? 'One dose rate was' : `${rates.length} dose rates were`;
  return `${what} computed from contents of uranium, thorium and potassium, water since burial, grain size and the cosmic dose rate with the factors ${tables.join(', ')} (${sources.join('; ')}). `;
}
