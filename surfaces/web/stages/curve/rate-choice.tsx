/** How the rate varies: which model the curve has, and the models side by side by how well each foretells the points. */
import { nameInTrace, type Results, ratesComparedOf } from '@stillstand/campaign/results';
import { rateName, ratesVerdict, saidOf } from '@stillstand/output/words';
import { type CurveResult, isSameRate, type RateModel, ratesToChoose } from '@stillstand/science/curve';
import { useId } from 'react';
import { Button, Mark, printed } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import './rate-choice.css';

export function RateChoice({
  results,
  curve,
  isFinal,
}: {
  results: Results;
  curve: CurveResult;
  isFinal: boolean;
}) {
  const store = useStore();
  const id = useId();
  const { rate_model } = curve.settings;
  const models = ratesToChoose(curve.settings);
  const compared = ratesComparedOf(results);
  const isAsked = store.setting('compare_rates') === 'on';
  const choose = ({ kind, changes, jump_sd_m, slowing_mm_yr_ka }: RateModel): void => {
    store.together(() => {
      store.setSetting('rate_model', kind);
      store.setSetting('rate_changes', kind === 'constant' ? '' : String(changes));
      store.setSetting('rate_jump_m', String(jump_sd_m));
      store.setSetting('rate_slowing_mm_yr_ka', String(slowing_mm_yr_ka));
    });
  };
  return (
    <section className="rate-choice" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>Model of the rate</h2>
      <div className="line">
        <select
          aria-labelledby={`${id}-title`}
          title="How the rate varies: smooth, constant between changes, or constant. Report a result under each model that the data do not decide against"
          value={models.findIndex((model) => isSameRate(model, rate_model))}
          disabled={store.readOnly}
          onChange={(event) => choose(models[Number(event.target.value)]!)}
        >
          {models.map((model, k) => (
            <option key={rateName(model)} value={k}>
              {rateName(model)}
            </option>
          ))}
        </select>
        {store.readOnly ? null : (
          <Button kind="bare" onClick={() => store.setSetting('compare_rates', isAsked ? 'off' : 'on')}>
            {isAsked ? 'Do not compare' : 'Compare models'}
          </Button>
        )}
      </div>
      {!isAsked ? null : compared.length === 0 ? (
        <p className="quiet">
          {nameInTrace(results) !== null
            ? 'Models are compared for the curve of the report alone.'
            : isFinal
              ? 'Nothing to compare.'
              : 'The models are being computed, up to a minute.'}
        </p>
      ) : (
        <>
          <table>
            <thead>
              <tr>
                <th scope="col">model</th>
                <th scope="col" className="n">
                  behind the best
                </th>
                <th scope="col">what the data say</th>
              </tr>
            </thead>
            <tbody>
              {compared.map((one) => (
                <tr key={rateName(one.rate_model)}>
                  <th scope="row">
                    {rateName(one.rate_model)}{' '}
                    {isSameRate(one.rate_model, rate_model) ? (
                      <Mark name="tick" size={14} label="in use" />
                    ) : null}
                  </th>
                  <td className="n">
                    {one.behind === null ? '' : printed(one.behind, 1)}{' '}
                    {one.behind_se === null ? null : (
                      <span className="pm">±{printed(2 * one.behind_se, 1)}</span>
                    )}
                  </td>
                  <td className={one.converged ? 'said' : 'said unsure'}>{saidOf(one)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="quiet">{ratesVerdict(compared)}</p>
        </>
      )}
    </section>
  );
}
