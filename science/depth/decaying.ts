/**
 * Our depth model: entered length E(P) as a monotone random function that runs through the soundings within their errors.
 * Local recovery in a cell is the logistic of its mean (decaying shortening, ρ₀ and ℓ unknown) plus layers (an
 * Ornstein–Uhlenbeck process). Draws are made by a particle filter down the hole: each spell between two soundings is
 * drawn to meet the entered length drawn for its end exactly, and weighted by the density of doing so. The filter
 * is exact as the number of draws grows; its slow twin (rejection) is in the test. See docs/methods/depth.md.
 */
import {
  exp,
  log,
  normalCdf,
  normalLogCdf,
  normalQuantile,
  quantileSorted,
  type RandomStream,
  truncatedNormal,
} from '@stillstand/science/base';
import type { EnteredPlace } from '@stillstand/science/rig';
import { cutGround, type Ground, type Spell } from './cells.ts';
import { type DepthInput, type DepthModel, summaryOf } from './model.ts';
import { type DepthSettings, depthDefaults } from './settings.ts';

/** Pairs (ρ₀, ℓ) tried: an even two-dimensional sequence over their priors. */
const PAIRS = 128;
/** Steps of the plastic-number sequence (Roberts 2018, even in two dimensions): 1/g and 1/g², g³ = g + 1. */
const STEP_1 = 0.7548776662466927;
const STEP_2 = 0.5698402909980532;

/**
 * @param input metres; with no pin the result is the prior, and `diagnostics.pins` 0 says so
 * @param stream taken by name, so that the same seed gives the same hole whatever else was drawn
 * @throws RangeError for settings that are none
 */
export function depthModel(
  input: DepthInput,
  stream: RandomStream,
  settings: DepthSettings = depthDefaults,
): DepthModel {
  if (!(settings.layer_sd > 0 && settings.cell_m > 0 && settings.draws >= 2)) {
    throw new RangeError(
      `layer_sd ${settings.layer_sd}, cell_m ${settings.cell_m}, draws ${settings.draws}: expected > 0, > 0, ≥ 2`,
    );
  }
  const ground = cutGround(input, settings);
  const pairs = shorteningPairs(ground, input, settings);
  const filter = runFilter(ground, pairs, settings, stream.split('filter'));
  refreshLayers(ground, pairs, filter, settings, stream.split('layers'));
  return modelOf(input, ground, pairs, filter, settings, stream);
}

interface Pairs {
  recovery: Float64Array;
  length: Float64Array;
  /** Logit of mean local recovery, [pair][cell]. */
  logit: Float64Array;
  /** Of each sounded spell, by pair: what should enter, its variance, and the log density this gives the sounding. */
  spells: { mean: Float64Array; variance: Float64Array; density: Float64Array }[];
  /** Cumulative probability of the pairs after the soundings, roughly. */
  cumulative: Float64Array;
}

/** Pairs of ρ₀ and ℓ over their priors, with a rough likelihood of the soundings that only steers the filter. */
function shorteningPairs(ground: Ground, input: DepthInput, settings: DepthSettings): Pairs {
  const cells = ground.edges.length - 1;
  const recovery = new Float64Array(PAIRS);
  const length = new Float64Array(PAIRS);
  const logit = new Float64Array(PAIRS * cells);
  const deepest = logitOf(settings.recovery_deep);
  const centre = logitOf(settings.recovery_at_ground);
  for (let p = 0; p < PAIRS; p++) {
    const u = (0.5 + (p + 1) * STEP_1) % 1;
    const w = (0.5 + (p + 1) * STEP_2) % 1;
    const rho = 1 / (1 + exp(-(centre + settings.recovery_logit_sd * normalQuantile(u))));
    const ell = settings.length_m * exp(settings.length_log_sd * normalQuantile(w));
    recovery[p] = rho;
    length[p] = ell;
    // mean recovery of a cell is the exact mean of 1 − (1 − ρ₀)e^(−z/ℓ) over it
    let above = exp(-(input.from_m + ground.edges[0]!) / ell);
    for (let k = 0; k < cells; k++) {
      const below = exp(-(input.from_m + ground.edges[k + 1]!) / ell);
      const short = ((1 - rho) * ell * (above - below)) / (ground.edges[k + 1]! - ground.edges[k]!);
      logit[p * cells + k] = Math.min(deepest, log((1 - short) / short));
      above = below;
    }
  }

  const spells: Pairs['spells'] = [];
  const total = new Float64Array(PAIRS);
  let before = 0;
  let sigmaBefore = 0;
  const spread = Math.sqrt(1 + (Math.PI / 8) * settings.layer_sd ** 2);
  for (const step of ground.steps) {
    if (step.kind !== 'pin') continue;
    const spell = step.after;
    if (spell !== null) {
      const rough = {
        mean: new Float64Array(PAIRS),
        variance: new Float64Array(PAIRS),
        density: new Float64Array(PAIRS),
      };
      const gain = step.entered_m - before;
      const error = step.sigma_m ** 2 + step.place_sigma_m ** 2 + sigmaBefore ** 2;
      for (let p = 0; p < PAIRS; p++) {
        let mean = 0;
        let slope = 0;
        for (let k = spell.first; k < spell.first + spell.cells; k++) {
          const rho = 1 / (1 + exp(-logit[p * cells + k]! / spread));
          mean += rho * spell.cell_m;
          slope += rho * (1 - rho) * spell.cell_m;
        }
        // half as wide again as the first-order sd, so that the proposal covers the target
        const variance = (1.5 * slope * spell.mean_sd) ** 2;
        const sd = Math.sqrt(variance + error);
        rough.mean[p] = mean;
        rough.variance[p] = variance;
        rough.density[p] = -0.5 * ((gain - mean) / sd) ** 2 - log(sd);
        total[p] = total[p]! + rough.density[p]!;
      }
      spells.push(rough);
    }
    before = step.entered_m;
    sigmaBefore = Math.sqrt(step.sigma_m ** 2 + step.place_sigma_m ** 2);
  }
  const most = total.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const cumulative = new Float64Array(PAIRS);
  let sum = 0;
  for (let p = 0; p < PAIRS; p++) {
    sum += exp(total[p]! - most);
    cumulative[p] = sum;
  }
  for (let p = 0; p < PAIRS; p++) cumulative[p] = cumulative[p]! / sum;
  return { recovery, length, logit, spells, cumulative };
}

interface Filtered {
  /** Entered length at each edge, [draw][edge]. */
  entered: Float64Array;
  /** Error of what the rig says was removed, after each run, [draw][run]. */
  removedError: Float64Array;
  pair: Int32Array;
  effectiveMin: number;
  ancestors: number;
}

/** Particles down the hole. Rows written before a resampling are followed back through `parents` at the end. */
function runFilter(ground: Ground, pairs: Pairs, settings: DepthSettings, stream: RandomStream): Filtered {
  const n = settings.draws;
  const cells = ground.edges.length - 1;
  const pair = new Int32Array(n);
  const layer = new Float64Array(n);
  const entered = new Float64Array(n);
  const removed = new Float64Array(n);
  // of the last sounding with all removed before it; and of where the shoe is, shared by soundings at one penetration
  const error = new Float64Array(n);
  const shoe = new Float64Array(n);
  const weight = new Float64Array(n);
  const parents: Int32Array[] = [];
  const edgeRows: { row: Float64Array; generation: number }[] = [{ row: new Float64Array(n), generation: 0 }];
  const runRows: { row: Float64Array; generation: number }[] = [];
  const spare = new Float64Array(n);
  const order = new Int32Array(n);
  let effectiveMin = n;

  const first = stream.uniform();
  for (let i = 0, p = 0; i < n; i++) {
    while (p < PAIRS - 1 && pairs.cumulative[p]! < (i + first) / n) p++;
    pair[i] = p;
  }
  shuffle(pair, stream);
  const pairAtStart = pair.slice();

  const resample = (always: boolean): void => {
    const effective = normalise(weight);
    effectiveMin = Math.min(effectiveMin, effective);
    if (effective > n / 2 && !always) return;
    const u = stream.uniform();
    let cumulative = exp(weight[0]!);
    for (let i = 0, j = 0; i < n; i++) {
      while (cumulative < (i + u) / n && j < n - 1) cumulative += exp(weight[++j]!);
      order[i] = j;
    }
    for (const a of [layer, entered, removed, error, shoe]) {
      for (let i = 0; i < n; i++) spare[i] = a[order[i]!]!;
      a.set(spare);
    }
    const kept = pair.slice();
    for (let i = 0; i < n; i++) pair[i] = kept[order[i]!]!;
    parents.push(order.slice());
    weight.fill(-log(n));
  };
  weight.fill(-log(n));

  const longest = Math.max(1, ...ground.steps.map(cellsOf));
  const noise = new Float64Array(longest);
  const recovery = new Float64Array(longest);
  let spellNumber = 0;
  for (const step of ground.steps) {
    const generation = parents.length;
    if (step.kind === 'run') {
      // soundings before and after: what is now said to be removed is off by the last pin's error and this sounding's
      for (let i = 0; i < n; i++) {
        removed[i] = (step.sounded ? error[i]! : removed[i]!) + step.sigma_m * stream.normal();
      }
      runRows.push({ row: removed.slice(), generation });
      continue;
    }
    const spell = step.kind === 'spell' ? step.spell : step.after;
    if (spell !== null) {
      const rows = Array.from({ length: spell.cells }, () => new Float64Array(n));
      const rough = step.kind === 'pin' ? pairs.spells[spellNumber++]! : null;
      for (let i = 0; i < n; i++) {
        const p = pair[i]!;
        const base = p * cells + spell.first;
        const above = layer[i]!;
        drawLayers(noise, spell, above, settings.layer_sd, stream);
        const from = entered[i]!;
        if (step.kind === 'pin') {
          const sigma = Math.sqrt(step.sigma_m ** 2 + step.place_sigma_m ** 2);
          // gain proposed from the sounding and the rough prior together, cut to what is possible
          const low = 1e-4 * spell.length_m;
          const high = spell.length_m * (1 - 1e-4);
          const aim = step.entered_m - removed[i]! - from;
          const mean = rough!.mean[p]!;
          const ours = 1 / rough!.variance[p]!;
          const theirs = 1 / sigma ** 2;
          const sd = 1 / Math.sqrt(ours + theirs);
          const centre = (mean * ours + aim * theirs) / (ours + theirs);
          const gain = truncatedNormal(stream, centre, sd, low, high);
          const density = meet(noise, recovery, spell, pairs.logit, base, gain, above);
          weight[i] =
            weight[i]! +
            density -
            rough!.density[p]! +
            logBetween(centre, sd, low, high) +
            log(sd / sigma) +
            0.5 * (((gain - centre) / sd) ** 2 - ((gain - aim) / sigma) ** 2);
        } else {
          for (let k = 0; k < spell.cells; k++) {
            recovery[k] = 1 / (1 + exp(-(pairs.logit[base + k]! + noise[k]!)));
          }
        }
        let e = from;
        for (let k = 0; k < spell.cells; k++) {
          e += spell.cell_m * recovery[k]!;
          rows[k]![i] = e;
        }
        entered[i] = e;
        layer[i] = noise[spell.cells - 1]!;
        if (step.kind === 'pin') {
          // what the reading is off by is part shoe, part sounding
          const off = step.entered_m - removed[i]! - e;
          const share = step.place_sigma_m ** 2 / (step.place_sigma_m ** 2 + step.sigma_m ** 2);
          shoe[i] = share * off + Math.sqrt(share) * step.sigma_m * stream.normal();
          error[i] = step.entered_m - e - shoe[i]!;
        }
      }
      for (const row of rows) edgeRows.push({ row, generation });
    } else if (step.kind === 'pin') {
      // the same penetration sounded again
      for (let i = 0; i < n; i++) {
        const off = step.entered_m - removed[i]! - entered[i]! - shoe[i]!;
        weight[i] = weight[i]! - 0.5 * (off / step.sigma_m) ** 2;
        error[i] = step.entered_m - entered[i]! - shoe[i]!;
      }
    }
    if (step.kind === 'pin') resample(false);
  }
  resample(true);

  // every kept draw back to its ancestors
  const edges = cells + 1;
  const at = Int32Array.from({ length: n }, (_, i) => i);
  const result = new Float64Array(n * edges);
  const removedError = new Float64Array(n * runRows.length);
  let edge = edges - 1;
  let run = runRows.length - 1;
  for (let generation = parents.length; generation >= 0; generation--) {
    for (; edge >= 0 && edgeRows[edge]!.generation === generation; edge--) {
      const { row } = edgeRows[edge]!;
      for (let i = 0; i < n; i++) result[i * edges + edge] = row[at[i]!]!;
    }
    for (; run >= 0 && runRows[run]!.generation === generation; run--) {
      const { row } = runRows[run]!;
      for (let i = 0; i < n; i++) removedError[i * runRows.length + run] = row[at[i]!]!;
    }
    if (generation > 0) {
      const parent = parents[generation - 1]!;
      for (let i = 0; i < n; i++) at[i] = parent[at[i]!]!;
    }
  }
  const pairOf = Int32Array.from(at, (a) => pairAtStart[a]!);
  return {
    entered: result,
    removedError,
    pair: pairOf,
    effectiveMin,
    ancestors: new Set(at).size,
  };
}

/**
 * Resampling leaves the upper spells with few different draws. One Metropolis sweep gives each spell of each draw new
 * layers that meet the same two soundings: proposed as the filter does, accepted by the same density, times how well the
 * first layer of the next spell follows.
 */
function refreshLayers(
  ground: Ground,
  pairs: Pairs,
  filtered: Filtered,
  settings: DepthSettings,
  stream: RandomStream,
): void {
  const cells = ground.edges.length - 1;
  const spells = ground.steps.flatMap((s) => (s.kind === 'pin' && s.after !== null ? [s.after] : []));
  const longest = Math.max(1, ...spells.map((s) => s.cells));
  const noise = new Float64Array(longest);
  const recovery = new Float64Array(longest);
  const layer = new Float64Array(cells);
  const all = ground.steps.flatMap((s) =>
    s.kind === 'spell' ? [s.spell] : s.kind === 'pin' && s.after ? [s.after] : [],
  );
  for (let i = 0; i < settings.draws; i++) {
    const p = filtered.pair[i]! * cells;
    const e = i * (cells + 1);
    const { entered } = filtered;
    for (const spell of all) {
      for (let k = spell.first; k < spell.first + spell.cells; k++) {
        const gain = entered[e + k + 1]! - entered[e + k]!;
        layer[k] = log(gain / (spell.cell_m - gain)) - pairs.logit[p + k]!;
      }
    }
    for (let j = 0; j < spells.length; j++) {
      const spell = spells[j]!;
      const { first, direction, cell_m } = spell;
      const end = first + spell.cells;
      const above = first > 0 ? layer[first - 1]! : 0;
      let c = 0;
      let slope = 0;
      for (let k = 0; k < spell.cells; k++) {
        c += layer[first + k]! / spell.cells;
        const rho = (entered[e + first + k + 1]! - entered[e + first + k]!) / cell_m;
        slope += rho * (1 - rho) * direction[k]! * cell_m;
      }
      const now = densityOf(spell, c, slope, above);
      drawLayers(noise, spell, above, settings.layer_sd, stream);
      const gain = entered[e + end]! - entered[e + first]!;
      let ratio = meet(noise, recovery, spell, pairs.logit, p + first, gain, above) - now;
      const next = all[j + 1];
      if (next !== undefined && end < cells) {
        const sd = settings.layer_sd * Math.sqrt(1 - next.enter * next.enter);
        const is = (layer[end]! - next.enter * layer[end - 1]!) / sd;
        const would = (layer[end]! - next.enter * noise[spell.cells - 1]!) / sd;
        ratio += 0.5 * (is * is - would * would);
      }
      if (log(stream.uniform()) >= ratio) continue;
      for (let k = 0; k < spell.cells; k++) {
        layer[first + k] = noise[k]!;
        // the last edge stays as it was: the soundings are met exactly
        if (k < spell.cells - 1) {
          entered[e + first + k + 1] = entered[e + first + k]! + cell_m * recovery[k]!;
        }
      }
    }
  }
}

const cellsOf = (step: Ground['steps'][number]): number =>
  step.kind === 'spell' ? step.spell.cells : step.kind === 'pin' ? (step.after?.cells ?? 0) : 0;

function drawLayers(out: Float64Array, spell: Spell, above: number, sd: number, stream: RandomStream): void {
  let g = spell.enter * above + sd * Math.sqrt(1 - spell.enter * spell.enter) * stream.normal();
  out[0] = g;
  const step = sd * Math.sqrt(1 - spell.next * spell.next);
  for (let k = 1; k < spell.cells; k++) {
    g = spell.next * g + step * stream.normal();
    out[k] = g;
  }
}

/**
 * Moves the layers of a spell along its direction until what enters is `gain`, and gives the log density of that gain
 * given all else: N(c; mean, sd) ÷ |∂gain/∂c|, √2π apart. Newton on the logit of the recovery of the spell, where the
 * function is nearly straight, until the next move is below 0.02; that one is made to first order, which meets the gain and moves the
 * layers right to 1e-4. `layers` and `recovery` are changed in place.
 */
function meet(
  layers: Float64Array,
  recovery: Float64Array,
  spell: Spell,
  logit: Float64Array,
  base: number,
  gain: number,
  above: number,
): number {
  const { cells, direction, length_m, cell_m } = spell;
  let c = 0;
  for (let k = 0; k < cells; k++) c += layers[k]!;
  c /= cells;
  const aim = log(gain / (length_m - gain));
  let entered = 0;
  let slope = 0;
  let moved = 0;
  let rest = 0;
  for (let round = 0; round < 30; round++) {
    entered = 0;
    slope = 0;
    for (let k = 0; k < cells; k++) {
      const rho = 1 / (1 + exp(-(logit[base + k]! + layers[k]! + direction[k]! * moved)));
      recovery[k] = rho;
      entered += rho;
      slope += rho * (1 - rho) * direction[k]!;
    }
    entered *= cell_m;
    slope *= cell_m;
    rest = (gain - entered) / slope;
    if (Math.abs(rest) < 0.02) break;
    const here = log(entered / (length_m - entered));
    const step = ((aim - here) * entered * (length_m - entered)) / (slope * length_m);
    moved += Math.max(-4, Math.min(4, step));
  }
  for (let k = 0; k < cells; k++) {
    layers[k] = layers[k]! + direction[k]! * (moved + rest);
    recovery[k] = recovery[k]! * (1 + (1 - recovery[k]!) * direction[k]! * rest);
  }
  return densityOf(spell, c + moved + rest, slope, above);
}

/** Log density of what entered in a spell whose layers have mean `c`, given all else about them. */
function densityOf(spell: Spell, c: number, slope: number, above: number): number {
  const off = (c - spell.carry * above) / spell.mean_sd;
  return -0.5 * off * off - log(spell.mean_sd * slope);
}

/** Log of the share of N(mean, sd) between two bounds, also far outside them. */
function logBetween(mean: number, sd: number, low: number, high: number): number {
  const a = (low - mean) / sd;
  const b = (high - mean) / sd;
  if (a > 5) return normalLogCdf(-a);
  if (b < -5) return normalLogCdf(b);
  return log(Math.max(1e-300, normalCdf(b) - normalCdf(a)));
}

/** Log weights made to sum to 1; gives the effective number. Weights that are all lost become even. */
function normalise(weight: Float64Array): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < weight.length; i++) if (weight[i]! > most) most = weight[i]!;
  if (!Number.isFinite(most)) {
    weight.fill(-log(weight.length));
    return 0;
  }
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < weight.length; i++) {
    const w = Number.isNaN(weight[i]!) ? 0 : exp(weight[i]! - most);
    sum += w;
    squares += w * w;
  }
  const total = most + log(sum);
  for (let i = 0; i < weight.length; i++) {
    weight[i] = Number.isNaN(weight[i]!) ? Number.NEGATIVE_INFINITY : weight[i]! - total;
  }
  return (sum * sum) / squares;
}

function shuffle(a: Int32Array, stream: RandomStream): void {
  for (let i = a.length - 1; i > 0; i--) {
    const j = stream.integer(i + 1);
    const x = a[i]!;
    a[i] = a[j]!;
    a[j] = x;
  }
}

const logitOf = (p: number): number => log(p / (1 - p));

function modelOf(
  input: DepthInput,
  ground: Ground,
  pairs: Pairs,
  filtered: Filtered,
  settings: DepthSettings,
  stream: RandomStream,
): DepthModel {
  const n = settings.draws;
  const { edges } = ground;
  const count = edges.length;
  const { entered, removedError } = filtered;
  const runRows = input.registration.filter((r) => r.kind === 'run');
  const runs = runRows.length;
  const bounds = Float64Array.from(runRows, (r) => r.entered_bottom_m);
  const runAt = new Map(runRows.map((r, i) => [r.row_id, i]));
  const fractions = new Map<string, Float64Array>();

  /** The rig's count at `e` is off by what its count of the removed is off by, straight between one run and the next. */
  const offAt = (draw: number, e: number): number => {
    if (runs === 0) return 0;
    let r = 0;
    while (r < runs && bounds[r]! < e) r++;
    if (r === runs) return removedError[draw * runs + runs - 1]!;
    const top = r === 0 ? 0 : bounds[r - 1]!;
    const off = r === 0 ? 0 : removedError[draw * runs + r - 1]!;
    const t = bounds[r]! > top ? (e - top) / (bounds[r]! - top) : 1;
    return off + t * (removedError[draw * runs + r]! - off);
  };
  /** The same for a place in a run, which hangs from the top of what was removed or stands on its base. */
  const offIn = (draw: number, run: number, share: number): number => {
    const above = run === 0 ? 0 : removedError[draw * runs + run - 1]!;
    return above + share * (removedError[draw * runs + run]! - above);
  };
  const depthAt = (draw: number, e: number): number => {
    const base = draw * count;
    if (e <= 0 || count === 1) return 0;
    if (e >= entered[base + count - 1]!) return edges[count - 1]!;
    let low = 0;
    let high = count - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (entered[base + middle]! <= e) low = middle;
      else high = middle;
    }
    const a = entered[base + low]!;
    const t = (e - a) / (entered[base + high]! - a);
    return edges[low]! + t * (edges[high]! - edges[low]!);
  };
  const fractionsOf = (name: string): Float64Array => {
    let f = fractions.get(name);
    if (f === undefined) {
      const own = stream.split('loss').split(name);
      f = Float64Array.from({ length: n }, () => own.uniform());
      fractions.set(name, f);
    }
    return f;
  };
  const place = (e: number | EnteredPlace) => {
    const draws = new Float64Array(n);
    let beyond = 0;
    const within = typeof e === 'number' ? null : e;
    const run = within === null ? undefined : runAt.get(within.shared);
    const fraction = within === null || within.high_m === within.low_m ? null : fractionsOf(within.shared);
    for (let i = 0; i < n; i++) {
      const f = fraction === null ? 0 : fraction[i]!;
      const x = within === null ? (e as number) : within.low_m + f * (within.high_m - within.low_m);
      const off =
        within === null || run === undefined
          ? offAt(i, x)
          : offIn(i, run, within.error_low + f * (within.error_high - within.error_low));
      const true_m = x - off;
      if (true_m > entered[i * count + count - 1]! + 1e-9) beyond++;
      draws[i] = input.from_m + depthAt(i, true_m);
    }
    return { draws, beyond: beyond / n };
  };

  return {
    kind: 'decaying',
    draws: n,
    from_m: input.from_m,
    penetration_m: input.from_m + edges[count - 1]!,
    inSituDepth: (e) => {
      const { draws, beyond } = place(e);
      return { ...summaryOf(draws), draws, beyond };
    },
    curve: (points = 101) => {
      const ends = Float64Array.from({ length: n }, (_, i) => entered[i * count + count - 1]!).sort();
      const end = quantileSorted(ends, 0.5);
      const entered_m = Float64Array.from({ length: points }, (_, i) => (end * i) / Math.max(1, points - 1));
      const curve = {
        entered_m,
        median_m: new Float64Array(points),
        lower95_m: new Float64Array(points),
        upper95_m: new Float64Array(points),
      };
      for (let i = 0; i < points; i++) {
        const sorted = place(entered_m[i]!).draws.sort();
        curve.median_m[i] = quantileSorted(sorted, 0.5);
        curve.lower95_m[i] = quantileSorted(sorted, 0.025);
        curve.upper95_m[i] = quantileSorted(sorted, 0.975);
      }
      return curve;
    },
    not_represented: notRepresented(edges, entered, n, input.from_m, settings.not_represented),
    shortening: {
      recovery_at_ground: summaryOf(Float64Array.from(filtered.pair, (p) => pairs.recovery[p]!)),
      length_m: summaryOf(Float64Array.from(filtered.pair, (p) => pairs.length[p]!)),
    },
    misfit: null,
    diagnostics: {
      pins: ground.pins,
      effective_draws_min: filtered.effectiveMin,
      ancestors: filtered.ancestors,
    },
  };
}

/** Cells that more likely than not let less than `least` of themselves in, joined where they touch. */
function notRepresented(
  edges: Float64Array,
  entered: Float64Array,
  draws: number,
  from_m: number,
  least: number,
): { top_m: number; bottom_m: number }[] {
  const found: { top_m: number; bottom_m: number }[] = [];
  const count = edges.length;
  for (let k = 1; k < count; k++) {
    const limit = least * (edges[k]! - edges[k - 1]!);
    let flat = 0;
    for (let i = 0; i < draws; i++) {
      if (entered[i * count + k]! - entered[i * count + k - 1]! < limit) flat++;
    }
    if (flat <= draws / 2) continue;
    const last = found[found.length - 1];
    if (last !== undefined && Math.abs(last.bottom_m - from_m - edges[k - 1]!) < 1e-9) {
      last.bottom_m = from_m + edges[k]!;
    } else found.push({ top_m: from_m + edges[k - 1]!, bottom_m: from_m + edges[k]! });
  }
  return found;
}
