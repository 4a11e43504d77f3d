/** Numbers to be reported, each with its draws by chain, and whether the chains agree on it. */
import { summarize } from './chains/diagnostics.ts';
import type { Band, Summary } from './result.ts';

/** Asked of every reported number (Vehtari et al. 2021, Bayesian Anal. 16:667–718). */
const RHAT = 1.01;
const ESS = 400;

export interface Quantity {
  name: string;
  /** Kept draws of each chain. */
  chains: readonly Float64Array[];
  /** Made when first asked for. */
  summary: Summary | null;
}

/** `pick`: its column of a chain's draws. */
export function quantity<Draws>(
  name: string,
  draws: readonly Draws[],
  kept: number,
  pick: (draws: Draws) => Float64Array,
): Quantity {
  return { name, chains: draws.map((d) => pick(d).subarray(0, kept)), summary: null };
}

export function summaryOf(q: Quantity): Summary {
  q.summary ??= summarize(q.chains);
  return q.summary;
}

export const hasSettled = (s: Pick<Summary, 'rhat' | 'ess_bulk' | 'ess_tail'>): boolean =>
  s.rhat < RHAT && s.ess_bulk >= ESS && s.ess_tail >= ESS;

/** What has not settled, by name; null where all have. The last one to fail is asked first, a summary takes long. */
export function unsettled(quantities: readonly Quantity[], lastToFail: string | null): string | null {
  const [still] = chainsStandingStill(quantities);
  if (still !== undefined) return chainName(still, quantities);
  const last = quantities.filter((q) => q.name === lastToFail);
  return [...last, ...quantities].find((q) => !hasSettled(summaryOf(q)))?.name ?? null;
}

/**
 * Chains in which no number ever moved. R-hat sees one among few, but not among many: what a chain that is stuck adds
 * to the variance between chains is shared by all of them.
 */
function chainsStandingStill(quantities: readonly Quantity[]): number[] {
  const chains = quantities[0]?.chains ?? [];
  return [...chains.keys()].filter((c) => quantities.every((q) => isStill(q.chains[c]!)));
}

function isStill(draws: Float64Array): boolean {
  for (let k = 1; k < draws.length; k++) if (draws[k] !== draws[0]) return false;
  return true;
}

const chainName = (c: number, [q]: readonly Quantity[]): string => `chain ${c + 1} of ${q!.chains.length}`;

/** In words, of each chain that did not move and each number that has not settled. */
function remarksOn(quantities: readonly Quantity[]): string[] {
  return [
    ...chainsStandingStill(quantities).map(
      (c) => `${chainName(c, quantities)} did not converge: none of its numbers ever moved.`,
    ),
    ...quantities.flatMap((q) => {
      const s = summaryOf(q);
      return hasSettled(s)
        ? []
        : [
            `${q.name} did not converge: R-hat ${s.rhat.toFixed(3)} (below ${RHAT} wanted), ${Math.round(s.ess_bulk)} ` +
              `effective draws, ${Math.round(s.ess_tail)} of them for its bounds (${ESS} wanted).`,
          ];
    }),
  ];
}

/** Over all numbers: the worst of each diagnostic, and in words what did not converge. */
export function diagnosis(quantities: readonly Quantity[]): {
  converged: boolean;
  rhat_max: number;
  ess_bulk_min: number;
  ess_tail_min: number;
  remarks: string[];
} {
  const summaries = quantities.map(summaryOf);
  const remarks = remarksOn(quantities);
  return {
    converged: remarks.length === 0,
    rhat_max: Math.max(...summaries.map((s) => s.rhat)),
    ess_bulk_min: Math.min(...summaries.map((s) => s.ess_bulk)),
    ess_tail_min: Math.min(...summaries.map((s) => s.ess_tail)),
    remarks,
  };
}

/** Of numbers along an axis (ages, depths), by place. */
export function bandOf(quantities: readonly Quantity[]): Band {
  const of = (name: keyof Band): Float64Array => Float64Array.from(quantities, (q) => summaryOf(q)[name]);
  return {
    mean: of('mean'),
    sd: of('sd'),
    median: of('median'),
    lower68: of('lower68'),
    upper68: of('upper68'),
    lower95: of('lower95'),
    upper95: of('upper95'),
  };
}
