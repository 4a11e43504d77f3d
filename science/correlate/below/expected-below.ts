/** What a hole is expected to meet below what it has reached. */
import { log, square } from '@stillstand/science/base';
import type { HoleBelow, TiedBases, UnitBelow } from './holes.ts';
import { type Horizon, horizonsOf } from './horizons.ts';
import type { BelowSettings } from './settings.ts';
import { sharesOf } from './shares.ts';
import { below, quantileBelow, type SeenAt, surfaces } from './surfaces.ts';

/** A contact that is expected, or was met. */
export interface ExpectedContact {
  /** The base of these units of the holes asked, the nearest first. */
  units: { hole: string; unit: string }[];
  /** The sediment and environment above it, of the nearest hole that says one. */
  sediment: string | null;
  environment: string | null;
  /** Probability that it is there, below what was reached. */
  present: number;
  /** Its elevation where it is there, m: median and the ends of 95 %. */
  elevation_m: { median: number; lower95: number; upper95: number };
  /** The elevations that the hole must go down to, to reach it with 80 and with 95 % where it is there, m. */
  with80_m: number;
  with95_m: number;
  /** Probability that it is there, before it is known how deep the hole went without it. */
  before: number;
  /** Where the hole has met it: that elevation, and the probability of one as far off or farther by what the others say; null before. */
  met: { unit: string; elevation_m: number; improbable: number } | null;
}

export interface ExpectedBelow {
  /** From the uppermost down. */
  contacts: ExpectedContact[];
  /** Of the holes asked, the nearest first, and how far they are, m. */
  asked: { hole: string; distance_m: number }[];
}

/**
 * @param here the hole, with the units it has met; its last unit goes on where `isBaseSeen` is false
 * @param reached_m elevation that it has reached and seen, m; the ground where it is only planned, ∞ where that is not known
 * @param ties bases that are one contact, those of this hole too
 * @returns null where no other hole has a base
 */
export function expectedBelow(
  here: HoleBelow,
  reached_m: number,
  others: readonly HoleBelow[],
  ties: readonly TiedBases[],
  settings: BelowSettings,
): ExpectedBelow | null {
  const asked = others
    .filter(({ units }) => units.some(({ isBaseSeen }) => isBaseSeen))
    .map((hole) => ({ hole, distance_m: between(here, hole) }))
    .sort((a, b) => a.distance_m - b.distance_m)
    .slice(0, settings.holes);
  if (asked.length === 0) return null;
  const near = asked.map(({ hole }) => hole);
  const places = [here, ...near];
  const horizons = horizonsOf(places, ties);
  const seen = seenAt(places, horizons);
  const at = places.map(({ east_m, north_m }) => ({
    east_m: east_m - here.east_m,
    north_m: north_m - here.north_m,
  }));
  const all = surfaces(seen, at, settings);
  // Before it is known how deep the hole went without it.
  const presence = (share: number): number => share * (1 - missing) + (1 - share) * settings.unforeseen;
  const missing = missingOf(horizons, near, settings);
  const contacts = horizons.flatMap((horizon, number): ExpectedContact[] => {
    const having = near.flatMap((hole) => {
      const unit = horizon.units.get(hole.hole);
      return unit === undefined ? [] : [{ hole: hole.hole, unit }];
    });
    if (having.length === 0) return [];
    const own = horizon.units.get(here.hole) ?? null;
    // What was met is compared with what the others say of it.
    const mixture =
      own === null
        ? all.at(0, number)
        : all.without(seen.findIndex(({ place, contact }) => place === 0 && contact === number));
    const there = own === null ? presence(shareOf(number, horizons, asked) ?? 0.5) : 1;
    const bound = own === null ? reached_m : Infinity;
    const deeper = below(mixture, bound);
    return [
      {
        units: having.map(({ hole, unit }) => ({ hole, unit: unit.id })),
        sediment: having.find(({ unit }) => unit.sediment !== null)?.unit.sediment ?? null,
        environment: having.find(({ unit }) => unit.environment !== null)?.unit.environment ?? null,
        present: (there * deeper) / (there * deeper + 1 - there),
        elevation_m: {
          median: quantileBelow(mixture, 0.5, bound),
          lower95: quantileBelow(mixture, 0.025, bound),
          upper95: quantileBelow(mixture, 0.975, bound),
        },
        with80_m: quantileBelow(mixture, 0.2, bound),
        with95_m: quantileBelow(mixture, 0.05, bound),
        before: there,
        met: own === null ? null : metAt(own, below(mixture, own.base_m.value)),
      },
    ];
  });
  return { contacts, asked: asked.map(({ hole, distance_m }) => ({ hole: hole.hole, distance_m })) };
}

const between = (a: HoleBelow, b: HoleBelow): number =>
  Math.sqrt(square(a.east_m - b.east_m) + square(a.north_m - b.north_m));

const metAt = ({ id, base_m }: UnitBelow, deeper: number): ExpectedContact['met'] => ({
  unit: id,
  elevation_m: base_m.value,
  improbable: 2 * Math.min(deeper, 1 - deeper),
});

/** Ground and bases, the ground numbered as a contact after the others. */
function seenAt(places: readonly HoleBelow[], horizons: readonly Horizon[]): SeenAt[] {
  return places.flatMap(({ hole, ground_m }, place) => [
    ...(ground_m === null
      ? []
      : [{ contact: horizons.length, place, elevation_m: ground_m.value, sigma_m: ground_m.sigma }]),
    ...horizons.flatMap(({ units }, contact): SeenAt[] => {
      const unit = units.get(hole);
      if (unit === undefined) return [];
      return [{ contact, place, elevation_m: unit.base_m.value, sigma_m: unit.base_m.sigma }];
    }),
  ]);
}

/**
 * Share of the holes that went on to a lower contact that have this one, each counting by its distance from a hole, inverse
 * square: of one with it and one without, on either side, about that of its end lying anywhere between. Null where none went on.
 */
function shareOf(
  number: number,
  horizons: readonly Horizon[],
  holes: readonly { hole: HoleBelow; distance_m: number }[],
): number | null {
  let [has, whole] = [0, 0];
  for (const { hole, distance_m } of holes) {
    const isThere = isAt(number, horizons, hole);
    if (isThere === null) continue;
    const weight = 1 / square(Math.max(1, distance_m));
    whole += weight;
    if (isThere) has += weight;
  }
  return whole === 0 ? null : has / whole;
}

/** Whether a hole has a contact; null where it ends above it. */
function isAt(number: number, horizons: readonly Horizon[], { hole }: HoleBelow): boolean | null {
  if (horizons[number]!.units.has(hole)) return true;
  return horizons.some(({ units }, k) => k > number && units.has(hole)) ? false : null;
}

/**
 * How often a contact is missing where the share of the other holes would have it: each hole asked in turn, by the others. A
 * mean over a grid, with a beta distribution beforehand.
 */
function missingOf(
  horizons: readonly Horizon[],
  holes: readonly HoleBelow[],
  { missing, missing_cases }: BelowSettings,
): number {
  const cases = holes.flatMap((hole) => {
    const others = holes.flatMap((other) =>
      other === hole ? [] : [{ hole: other, distance_m: between(hole, other) }],
    );
    return horizons.flatMap((_, number) => {
      const [here, share] = [isAt(number, horizons, hole), shareOf(number, horizons, others)];
      // One that no other hole has would not be asked for.
      return here === null || share === null || share === 0 ? [] : [{ here, share }];
    });
  });
  const grid = Array.from({ length: 49 }, (_, i) => 0.02 * (i + 1));
  const logs = grid.map(
    (m) =>
      (missing * missing_cases - 1) * log(m) +
      ((1 - missing) * missing_cases - 1) * log(1 - m) +
      cases.reduce((sum, { here, share }) => sum + log(here ? share * (1 - m) : 1 - share * (1 - m)), 0),
  );
  const shares = sharesOf(logs);
  return grid.reduce((sum, m, i) => sum + m * shares[i]!, 0);
}
