/**
 * Age against depth in holes whose dates share errors, of a reservoir or of doses measured together: one chain over the
 * histories of all of them and these errors, run until it agrees, and each hole summarised. docs/methods/age-depth.md.
 */
import {
  inProcess,
  type OnProgress,
  type Quantity,
  quantity,
  type RandomStream,
  runChains,
  summaryOf,
  unsettled,
  type Work,
} from '@stillstand/science/base';
import { ageDepthWork, PLAN } from '../age-depth.ts';
import type { AgeDepth, NotEnough } from '../model.ts';
import { unsettledHistories } from '../modes.ts';
import { type Reported, reported } from '../reported.ts';
import { demandSettings } from '../settings.ts';
import { summariseAgeDepth } from '../summarise.ts';
import { dateInHole, type HoleToWalk, holeToWalk } from '../walk.ts';
import type { HolesReady } from './chain.ts';
import { groupOfDoses } from './dose-group.ts';
import { type HoleTogether, sharedGroups } from './model.ts';
import { type DrawsTogether, togetherSampler } from './sampler.ts';

/**
 * Ages (cal BP) and accumulation (mm/yr) down each of some holes, in their order, as `ageDepth` gives them, from the dates of
 * all: an error of one group is one. A hole whose dates share none is computed by itself, with a stream split by its name.
 *
 * Pure and seeded by `stream`, of which nothing is drawn. A hole without dates enough is `not_enough`; the others are computed.
 * @throws RangeError as `ageDepth`, and for settings of chains or draws that are not alike.
 */
export function ageDepthTogether(
  holes: readonly HoleTogether[],
  stream: RandomStream,
  onProgress?: OnProgress,
): (AgeDepth | NotEnough)[] {
  return inProcess(ageDepthTogetherWork(holes, stream), onProgress);
}

/** The same as work for a crew. */
export function* ageDepthTogetherWork(
  holes: readonly HoleTogether[],
  stream: RandomStream,
): Work<(AgeDepth | NotEnough)[]> {
  const models = holes.map(({ input, settings }) => holeToWalk(input, settings));
  const used = holes.flatMap((each, h): Used[] => {
    const model = models[h]!;
    if (model.kind !== 'hole') return [];
    // A date that is left out shares nothing.
    const shared = each.shared.filter(({ id }) => dateInHole(model, id) >= 0);
    return [{ ...each, shared, model }];
  });
  const groups = sharedGroups(used);
  const isSharing = ({ shared }: Used): boolean =>
    shared.some(({ sharing }) => groups.includes(sharing.group));
  const together = used.filter(isSharing);
  const found = new Map<string, AgeDepth | NotEnough>();
  for (const each of used)
    if (!isSharing(each))
      found.set(each.hole, yield* ageDepthWork(each.input, each.settings, stream.split(each.hole)));
  if (together.length > 0) {
    const results = yield* run(together, groups, stream);
    for (const [h, { hole }] of together.entries()) found.set(hole, results[h]!);
  }
  return holes.map(({ hole }, h) => {
    const model = models[h]!;
    return model.kind === 'hole' ? found.get(hole)! : model;
  });
}

type Used = HoleTogether & { model: HoleToWalk };

function* run(holes: readonly Used[], groups: readonly string[], stream: RandomStream): Work<AgeDepth[]> {
  for (const { settings } of holes) demandSettings(settings);
  const [{ settings: first }] = holes as [Used];
  const alike = holes.every(({ settings: s }) => s.chains === first.chains && s.draws === first.draws);
  if (!alike) throw new RangeError('ageDepthTogether: holes of other chains or draws; expected them alike');
  const ready = readyOf(holes, groups);
  const { draws, kept, sweeps, all } = yield* runChains(
    togetherSampler,
    ready,
    {
      ...PLAN,
      chains: first.chains,
      draws: first.draws,
      report: (draws, kept) => ({
        ...reportedTogether(ready, draws, kept),
        histories: () => {
          for (const [h, { model }] of holes.entries()) {
            const ofHole = draws.map((d) => d.holes[h]!);
            const unsure = unsettledHistories(model.hole, ofHole, kept);
            if (unsure !== null) return unsure;
          }
          return null;
        },
      }),
      unsettled: ({ all, histories }, last) => unsettled(all, last) ?? histories(),
    },
    stream.split('ages against depth together'),
  );
  return holes.map(({ hole, model, shared }, h) => {
    const own = groups.flatMap((group, g) =>
      shared.some(({ sharing }) => sharing.group === group) ? [{ group, g }] : [],
    );
    const ofHole = all.holes[h]!;
    const result = summariseAgeDepth(
      model.hole,
      draws.map((d) => d.holes[h]!),
      kept,
      sweeps,
      { ...ofHole, all: [...own.map(({ g }) => all.errors[g]!), ...ofHole.all] },
    );
    return {
      ...result,
      shared: own.map(({ group, g }) => ({
        group,
        sigma_yr: ready.sigma_yr[g]!,
        shift_yr: summaryOf(all.errors[g]!),
        dates: shared.filter(({ sharing }) => sharing.group === group).map(({ id }) => id),
        holes: holes
          .filter(
            (other) => other.hole !== hole && other.shared.some(({ sharing }) => sharing.group === group),
          )
          .map((other) => other.hole),
      })),
    };
  });
}

function readyOf(holes: readonly Used[], groups: readonly string[]): HolesReady {
  const loadings = (group: string): number[] =>
    holes.flatMap(({ shared }) =>
      shared.flatMap(({ sharing }) => (sharing.group === group ? [sharing.loading_yr] : [])),
    );
  return {
    holes: holes.map(({ hole, model, shared }) => ({
      hole,
      model,
      shared: shared.flatMap(({ id, sharing }) =>
        groups.includes(sharing.group) ? [{ date: dateInHole(model, id), sharing }] : [],
      ),
    })),
    groups,
    sigma_yr: Float64Array.from(groups, (group) => Math.max(...loadings(group))),
  };
}

interface ReportedTogether {
  holes: Reported[];
  errors: Quantity[];
  /** What settles last first. */
  all: Quantity[];
}

function reportedTogether(
  { holes, groups }: HolesReady,
  draws: readonly DrawsTogether[],
  kept: number,
): ReportedTogether {
  const errors = groups.map((group, g) => quantity(nameOf(group), draws, kept, (d) => d.error_yr[g]!));
  const ofHoles = holes.map(({ model }, h) =>
    reported(
      model.hole,
      draws.map((d) => d.holes[h]!),
      kept,
    ),
  );
  return { holes: ofHoles, errors, all: [...errors, ...ofHoles.flatMap(({ all }) => all)] };
}

function nameOf(group: string): string {
  const doses = groupOfDoses(group);
  return doses === null ? `reservoir error ${group}` : `systematic error of dates ${doses}`;
}
