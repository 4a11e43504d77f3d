/**
 * s and L change together with the histories they rule, without moving the dated horizons. Given a history, s and L are
 * all but known from it and creep; so here the shape of the history goes with them (the two ways interwoven: Yu & Meng
 * 2011, J. Comput. Graph. Stat. 20:531–570).
 *
 * The hole is cut at the section boundaries nearest to the horizons. Within a part, ρ_j = u_j − u of its first section is
 * its shape, T its time. What is new in the shape, (ρ_j − φρ_{j−1})/(s·newSd), is kept, ρ is built from it with the new
 * φ and s·newSd, and T is kept. In u the measure is dT/T·dρ, so the Jacobian is the ratio of s·newSd to the power of the
 * number of sections less that of parts.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { drawMean, logPriorOfLaw, logSectionsOfAnyMean, type Memory, memory } from './law.ts';

/** Room to work in. */
export interface Stretching {
  isEdge: Uint8Array;
  before: Float64Array;
  level: Float64Array;
}

export function stretching({ sections, dates }: Hole): Stretching {
  return {
    isEdge: new Uint8Array(sections + 1),
    before: new Float64Array(sections),
    level: new Float64Array(dates.length),
  };
}

/** Returns whether it was made. */
export function stretch(h: History, room: Stretching, step: number, stream: RandomStream): boolean {
  const { hole, u, law } = h;
  const { sections, dates, settings, isCut } = hole;
  const { isEdge, before } = room;
  cutAtHorizons(h, isEdge);

  const old = { ...law, variation: h.variation, memory: h.memory };
  const log_variation = law.log_variation + step * settings.variation_log_sd * stream.normal();
  const log_persistence = law.log_persistence + step * settings.persistence_log_sd * stream.normal();
  const variation = exp(log_variation);
  const m = memory(hole, exp(log_persistence), h.spare);
  let gain =
    logPriorOfLaw(settings, log_variation, log_persistence) -
    logPriorOfLaw(settings, law.log_variation, law.log_persistence) -
    logSectionsOfAnyMean(u, isCut, old.variation, old.memory, settings);
  const wider = variation / old.variation;
  before.set(u);
  for (let from = 0; from < sections; ) {
    let to = from + 1;
    while (isEdge[to] === 0) to++;
    gain += reshape(h, before, from, to, wider, old.memory, m);
    from = to;
  }
  gain += logSectionsOfAnyMean(u, isCut, variation, m, settings);
  room.level.set(h.level);
  gain -= h.ofProfiles;
  law.log_variation = log_variation;
  law.log_persistence = log_persistence;
  h.variation = variation;
  h.memory = m;
  h.spare = old.memory;
  tell(h);
  for (let i = 0; i < dates.length; i++) gain += h.level[i]! - room.level[i]!;
  gain += h.ofProfiles;
  if (log(stream.uniform()) < gain) {
    law.mean = drawMean(u, isCut, variation, m, settings, stream);
    tell(h);
    return true;
  }
  u.set(before);
  law.log_variation = old.log_variation;
  law.log_persistence = old.log_persistence;
  h.variation = old.variation;
  h.memory = old.memory;
  h.spare = m;
  tell(h);
  return false;
}

/** 1 at the section boundaries nearest to the horizons, and at the ends of the hole. */
export function cutAtHorizons({ hole, state }: History, isEdge: Uint8Array): void {
  const { sections, dates, section, below_m, thickness_m } = hole;
  isEdge.fill(0);
  isEdge[0] = 1;
  isEdge[sections] = 1;
  const first = state * dates.length;
  for (let i = 0; i < dates.length; i++) {
    const j = section[first + i]!;
    isEdge[below_m[first + i]! > 0.5 * thickness_m[j]! ? j + 1 : j] = 1;
  }
}

/** Builds the shape of a part again, its u before being these, with s so many times as large and the new memory; returns the log Jacobian. */
export function reshape(
  { u, yr_per_m, hole: { thickness_m } }: History,
  before: Float64Array,
  from: number,
  to: number,
  wider: number,
  old: Memory,
  m: Memory,
): number {
  let jacobian = 0;
  let time = thickness_m[from]! * yr_per_m[from]!;
  let made = thickness_m[from]!;
  let shape = 0;
  for (let j = from + 1; j < to; j++) {
    const isNew = before[j]! - before[from]! - old.coefficient[j]! * (before[j - 1]! - before[from]!);
    const ratio = (wider * m.newSd[j]!) / old.newSd[j]!;
    jacobian += log(ratio);
    shape = m.coefficient[j]! * shape + ratio * isNew;
    u[j] = shape;
    made += thickness_m[j]! * exp(shape);
    time += thickness_m[j]! * yr_per_m[j]!;
  }
  const lift = log(time / made);
  u[from] = lift;
  for (let j = from + 1; j < to; j++) u[j] = u[j]! + lift;
  return jacobian;
}
