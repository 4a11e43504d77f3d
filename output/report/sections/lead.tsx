/** Profiles of lead-210 and caesium-137: what they hold, and the ages of their slices. */
import { type LeadProfileResult, type Results, traceId } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { each, words } from '../quantity.tsx';
import { From } from '../where/from.tsx';

type Slice = LeadProfileResult['slices'][number];
type Model = Slice['ages'][number]['model'];
type Estimate = NonNullable<LeadProfileResult['inventory_bq_m2']>;

export function LeadProfiles({ results }: { results: Results }) {
  return each(results.lead_profiles, (profile) => (
    <>
      <h3>
        Lead-210 profile {profile.profile}, hole {profile.hole}
      </h3>
      <Extent profile={profile} />
      <Horizons profile={profile} />
      <table>
        <thead>
          <tr>
            <th className="n">depth, m</th>
            <th className="n">excess, Bq/kg</th>
            <th className="n">constant supply</th>
            <th className="n">its 95 %</th>
            <th className="n">cal BP</th>
            <th className="n">constant concentration</th>
            <th className="n">constant flux</th>
            <th className="n">mm/yr</th>
          </tr>
        </thead>
        <tbody>{each(profile.slices, (slice) => row(slice))}</tbody>
      </table>
      <p className="q">
        Ages in years before collection, at the base of the slice; of constant concentration at its middle.
        Accumulation and cal BP by constant supply.
      </p>
    </>
  ));
}

const FROM = {
  stated: 'as stated',
  each_slice: 'mean of the slices, each used with its own',
  tail: 'from the deepest slices',
} as const;

function Extent({ profile: of }: { profile: LeadProfileResult }) {
  const { supported, supply_bq_m2_yr: supply, inventory_bq_m2: inventory, mean_rate_mm_yr: rate } = of;
  return (
    <p>
      {supported === null
        ? 'No supported lead-210 is known. '
        : `Supported lead-210 ${printed(supported.bq_kg, 1)} ±${printed(2 * supported.sigma_bq_kg, 1)} Bq/kg (${FROM[supported.from]}). `}
      {inventory === null || supply === null ? (
        'No age by constant supply. '
      ) : (
        <>
          Unsupported inventory {pm(inventory, 0)} Bq/m², supply{' '}
          <From id={traceId.leadProfile(of.profile)}>{printed(supply.value)}</From> ±
          {printed(2 * supply.sigma)} Bq/m²/yr.{' '}
        </>
      )}
      {rate === null ? '' : `Mean accumulation by constant flux ${pm(rate, 2)} mm/yr.`}
    </p>
  );
}

const pm = ({ value, sigma }: Estimate, decimals: number): string =>
  `${printed(value, decimals)} ±${printed(2 * sigma, decimals)}`;

const perhaps = (of: Estimate | null | undefined, decimals: number): string =>
  of === null || of === undefined ? '–' : pm(of, decimals);

function row(slice: Slice) {
  const of = (model: Model) => slice.ages.find((ages) => ages.model === model);
  const supply = of('constant_supply');
  const base = supply?.base_yr ?? null;
  return (
    <tr>
      <td className="n nb">
        {printed(slice.top_m, 3)}–{printed(slice.bottom_m, 3)}
        {slice.slice === null ? ' (estimated)' : ''}
      </td>
      <td className="n">{perhaps(slice.excess_bq_kg, 1)}</td>
      <td className="n">{perhaps(base, 1)}</td>
      <td className="n nb">
        {base === null ? '' : `${printed(base.lower95, 0)}–${printed(base.upper95, 0)}`}
      </td>
      <td className="n">{printed(supply?.base_cal_bp ?? null, 1)}</td>
      <td className="n">{perhaps(of('constant_concentration')?.middle_yr, 1)}</td>
      <td className="n">{perhaps(of('constant_flux')?.base_yr, 1)}</td>
      <td className="n">{perhaps(slice.rate_mm_yr, 2)}</td>
    </tr>
  );
}

/** A dated horizon is the test of the models: said whatever it says. */
function Horizons({ profile }: { profile: LeadProfileResult }) {
  return each(profile.horizons, ({ kind, year_ce, depth_m, models }) => (
    <p>
      Caesium-137 {kind} ({year_ce}) at {pm(depth_m, 3)} m.
      {models.length === 0
        ? ''
        : ` There ${models
            .map(
              ({ model, year_ce: at, difference_in_sd }) =>
                `${words(model)} has ${at.value.toFixed(0)} ±${printed(2 * at.sigma, 0)} CE${Math.abs(difference_in_sd) > 2 ? ', which disagrees' : ''}`,
            )
            .join('; ')}.`}
    </p>
  ));
}
