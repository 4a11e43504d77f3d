/** Environments through time in words: what stood where, how long, when an edge passed, and what is taken for granted. */
import type { EnvironmentResult, LineThroughTime, Results } from '@stillstand/campaign/results';
import { sameName } from '@stillstand/campaign/tables';
import type { Range } from '@stillstand/science/base';
import { share } from './curve-answers.ts';
import { printed, range, signed, yearRange, years } from './number.ts';

type Spell = EnvironmentResult['spells'][number];

/** What is written where no layer is of that time. */
const NO_LAYER: Readonly<Record<Exclude<Spell['kind'], 'environment'>, string>> = {
  since: 'nothing younger',
  missing: 'layers missing',
  unseen: 'gap in the core',
  before: 'not reached',
};

/** A spell by its environment, or why there is none. */
export const spellName = ({ kind, environment }: Pick<Spell, 'kind' | 'environment'>): string =>
  kind === 'environment' ? (environment ?? 'not said') : NO_LAYER[kind];

/** To two decimals, never as a certainty: some hundreds of draws show no more. */
export const likely = (p: number): string => share(p, 100);

/** "8,950" and "9,100–8,670": median and central 95 % of an age, cal BP. */
export const agesInWords = ({ median, lower95, upper95 }: Range): { median: string; range: string } => ({
  median: years(Math.round(median)),
  range: yearRange(Math.round(upper95), Math.round(lower95)),
});

/** The same of a number of years. */
export const lastedInWords = ({ median, lower95, upper95 }: Range): { median: string; range: string } => ({
  median: printed(median),
  range: `${printed(lower95)}–${printed(upper95)}`,
});

/** Signed, as rates and heights are. */
export const rateInWords = ({ median, lower95, upper95 }: Range): { median: string; range: string } => ({
  median: signed(median, 2),
  range: range(lower95, upper95, 2),
});

/** "at least 1,680 yr, probability 0.95": tens of years, rounded down. */
export const atLeastInWords = (at_least_yr: number): string =>
  `at least ${printed(10 * Math.floor(Math.max(0, at_least_yr) / 10))} yr, probability 0.95`;

/** Environments on the inner side that the holes of the line have; all of them where none does. */
export function innerSide({ environments }: Results, { edge, past_sections }: LineThroughTime): string[] {
  if (edge === null) return [];
  const own = new Set(past_sections[0]?.holes.map(({ hole }) => hole));
  const present = new Set(
    environments
      .filter(({ hole }) => own.size === 0 || own.has(hole))
      .flatMap(({ spells }) =>
        spells.flatMap(({ environment }) => (environment === null ? [] : sameName(environment))),
      ),
  );
  const known = edge.inner.filter((each) => present.has(sameName(each)));
  return known.length > 0 ? known : [...edge.inner];
}

/** Spells that are held against the curve, hole by hole. */
export const againstTheSea = (
  environments: readonly EnvironmentResult[],
): { hole: string; spell: Spell; sea: NonNullable<Spell['against_sea']> }[] =>
  environments.flatMap(({ hole, spells }) =>
    spells.flatMap((spell) => (spell.against_sea === null ? [] : [{ hole, spell, sea: spell.against_sea }])),
  );

/** "high marsh (0.83)" and what else is at least 0.05 probable there, the likeliest first. */
export function standingAt({ ages_cal_bp, spells }: EnvironmentResult, age_cal_bp: number): string {
  const at = (values: ArrayLike<number>): number => betweenAges(ages_cal_bp, values, age_cal_bp);
  const sums = new Map<string, number>();
  for (const spell of spells) {
    const name = spellName(spell);
    sums.set(name, (sums.get(name) ?? 0) + at(spell.probability));
  }
  const standing = [...sums].filter(([, p]) => p >= 0.05).sort((a, b) => b[1] - a[1]);
  return standing.map(([name, p]) => `${name} (${likely(p)})`).join(', ');
}

/** "between M1 and M2, at 285 m (178–344)", beyond the holes, or not known: as likely as it is. */
export function edgeAt({ edge }: LineThroughTime, age_cal_bp: number): string {
  if (edge === null) return 'no edge';
  const at = (values: ArrayLike<number>): number => betweenAges(edge.ages_cal_bp, values, age_cal_bp);
  const [between, beyond, before] = [at(edge.between), at(edge.inside_of_all), at(edge.outside_of_all)];
  if (between + beyond + before < 0.5) return 'not known';
  if (beyond > Math.max(between, before)) return `past ${edge.innermost} (${likely(beyond)})`;
  if (before > between) return `not yet at the holes (${likely(before)})`;
  const along = [edge.median, edge.lower95, edge.upper95].map((values) => printed(at(values)));
  return `${along[0]} m along the line (95 %: ${along[1]}–${along[2]} m)`;
}

/** A value between two ages of a run in ascending order, straight; beyond its ends that of the end. */
export function betweenAges(ages: ArrayLike<number>, values: ArrayLike<number>, age: number): number {
  const last = ages.length - 1;
  if (age <= ages[0]!) return values[0]!;
  if (age >= ages[last]!) return values[last]!;
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (ages[middle]! <= age) low = middle;
    else high = middle;
  }
  const share = (age - ages[low]!) / (ages[high]! - ages[low]!);
  return share === 0 ? values[low]! : values[low]! + share * (values[high]! - values[low]!);
}

/** Holes whose ages are not to be used, since their chains do not agree. */
export const notConvergedHoles = ({ environments }: Pick<Results, 'environments'>): string[] =>
  environments.filter(({ converged }) => !converged).map(({ hole }) => hole);

/** What every number of environments through time rests on. */
export const THROUGH_TIME_ASSUMES: readonly string[] = [
  'Environments are those written for the layers: one named wrongly moves every number here.',
  'Surfaces and heights are of layers as they lie now; what has sunk since by compaction is not raised.',
  'Ages against depth and the curve are computed apart, and errors that both have are taken to be independent.',
  'Between two holes nothing is known but the order in time. A change that no layer is left of is not seen: on simulated coasts the 95 % band of the edge held it at 0.89 of the ages.',
];
