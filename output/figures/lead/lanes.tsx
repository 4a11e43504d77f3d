/** Lanes of a lead-210 profile: excess with its fit, caesium-137, and ages by each model. */
import type { LeadProfileResult } from '@stillstand/campaign/results';
import {
  box,
  DASHED,
  DOTTED,
  dot,
  horizontal,
  LINE,
  polyline,
  type Scale,
  Text,
  useInk,
} from '@stillstand/output/drawing';
import { exp } from '@stillstand/science/base';
import { type Model, modelsOf } from './words.ts';

const DASHES: Readonly<Record<Model, object>> = {
  constant_supply: {},
  constant_flux: DASHED,
  constant_concentration: DOTTED,
};

interface LaneProps {
  profile: LeadProfileResult;
  across: Scale;
  depth: Scale;
}

export function Excess({ profile, across, depth }: LaneProps) {
  const ink = useInk();
  const cells = profile.slices.flatMap((slice) =>
    slice.excess_bq_kg === null ? [] : [{ ...slice, excess: slice.excess_bq_kg }],
  );
  const bar = ({ top_m, bottom_m, excess }: (typeof cells)[number]): string =>
    box(across(0), depth(Math.max(0, top_m)), across(Math.max(0, excess.value)), depth(bottom_m));
  const within = (value: number): number => across(Math.min(across.to, Math.max(0, value)));
  return (
    <g fill="none" stroke={ink.ink} strokeWidth={LINE.edge}>
      <path
        d={cells
          .filter(({ slice }) => slice !== null)
          .map(bar)
          .join('')}
        fill={ink.leaf}
      />
      <path
        d={cells
          .filter(({ slice }) => slice === null)
          .map(bar)
          .join('')}
        stroke={ink.ink2}
        {...DOTTED}
      />
      <path
        d={cells
          .map(({ top_m, bottom_m, excess }) =>
            horizontal(within(excess.lower95), within(excess.upper95), depth((top_m + bottom_m) / 2)),
          )
          .join('')}
      />
      <path d={fitted(profile, across, depth)} strokeWidth={LINE.bold} {...DASHED} />
    </g>
  );
}

/** C₀e^(−λt) with the ages of constant flux and sedimentation. */
function fitted(
  { slices, surface_excess_bq_kg, half_life_yr }: LeadProfileResult,
  across: Scale,
  depth: Scale,
): string {
  if (surface_excess_bq_kg === null) return '';
  const at = (age: number): number =>
    across(Math.min(across.to, surface_excess_bq_kg.value * exp((-Math.LN2 * age) / half_life_yr)));
  const points = agesOf(slices, 'constant_flux').map(({ depth_m, age }): [number, number] => [
    at(age.value),
    depth(depth_m),
  ]);
  return points.length < 2 ? '' : polyline([[at(0), depth(0)], ...points]);
}

/** Middles and bases that a model dates, from the top down. */
function agesOf(slices: LeadProfileResult['slices'], model: Model) {
  return slices.flatMap(({ top_m, bottom_m, ages }) => {
    const of = ages.find((each) => each.model === model);
    return [
      { depth_m: (top_m + bottom_m) / 2, age: of?.middle_yr ?? null },
      { depth_m: bottom_m, age: of?.base_yr ?? null },
    ].flatMap(({ depth_m, age }) => (age === null ? [] : [{ depth_m, age }]));
  });
}

export function Caesium({ profile, across, depth }: LaneProps) {
  const ink = useInk();
  const found = profile.slices.flatMap((slice) =>
    slice.caesium_bq_kg === null
      ? []
      : [{ ...slice, value: slice.caesium_bq_kg, sigma: slice.caesium_sigma_bq_kg }],
  );
  const bar = ({ top_m, bottom_m, value }: (typeof found)[number]): string =>
    box(across(0), depth(Math.max(0, top_m)), across(Math.max(0, value)), depth(bottom_m));
  return (
    <g>
      <g fill="none" stroke={ink.ink} strokeWidth={LINE.edge}>
        <path
          d={found
            .filter(({ sigma }) => sigma !== null)
            .map(bar)
            .join('')}
          fill={ink.leaf}
        />
        <path
          d={found
            .filter(({ sigma }) => sigma === null)
            .map(bar)
            .join('')}
          {...DOTTED}
        />
        <path
          d={found
            .map(({ top_m, bottom_m, value, sigma }) =>
              horizontal(
                across(Math.max(0, value - 2 * (sigma ?? 0))),
                across(Math.max(0, value + 2 * (sigma ?? 0))),
                depth((top_m + bottom_m) / 2),
              ),
            )
            .join('')}
        />
      </g>
      {profile.horizons.map(({ kind, year_ce, depth_m }) => (
        <Text key={kind} x={across(across.to)} y={depth(depth_m.value) + 2.4} anchor="end">
          {`${year_ce}`}
        </Text>
      ))}
    </g>
  );
}

export function Ages({ profile, across, depth }: LaneProps) {
  const ink = useInk();
  const { slices, horizons, collected_ce } = profile;
  const dated = collected_ce === null ? [] : horizons;
  const x = (age: number): number => across(Math.min(across.to, Math.max(0, age)));
  const line = (model: Model): string => {
    const points = agesOf(slices, model).map(({ depth_m, age }): [number, number] => [
      x(age.value),
      depth(depth_m),
    ]);
    if (points.length === 0) return '';
    // The surface is of the year of collection; where its activity begins, constant concentration does not know.
    return polyline(model === 'constant_concentration' ? points : [[x(0), depth(0)], ...points]);
  };
  const bars = agesOf(slices, 'constant_supply').map(({ depth_m, age }) =>
    horizontal(x(age.lower95), x(age.upper95), depth(depth_m)),
  );
  return (
    <g>
      <g fill="none" stroke={ink.ink}>
        <path d={bars.join('')} strokeWidth={LINE.edge} />
        {modelsOf(profile).map((model) => (
          <path
            key={model}
            d={line(model)}
            strokeWidth={LINE.bold}
            strokeLinejoin="round"
            {...DASHES[model]}
          />
        ))}
        {dated.map(({ kind, year_ce, depth_m }) => {
          const at = x(collected_ce! - year_ce);
          const y = depth(depth_m.value);
          return (
            <g key={kind}>
              <path
                d={polyline([
                  [at, depth(depth_m.lower95)],
                  [at, depth(depth_m.upper95)],
                ])}
                strokeWidth={LINE.edge}
              />
              <path d={box(at - 2.4, y - 2.4, at + 2.4, y + 2.4)} fill={ink.paper} strokeWidth={LINE.fine} />
              <path d={dot(at, y)} strokeWidth={1.2} strokeLinecap="round" />
            </g>
          );
        })}
      </g>
      {dated.map(({ kind, year_ce, depth_m }) => (
        <Text key={kind} x={x(collected_ce! - year_ce) - 9} y={depth(depth_m.value) + 9} anchor="end" halo>
          {`${year_ce}`}
        </Text>
      ))}
    </g>
  );
}
