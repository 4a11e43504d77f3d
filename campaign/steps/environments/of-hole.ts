/** What stood at one hole, its surface, and both against the sea. */
import type { EnvironmentResult, HoleHistory } from '@stillstand/campaign/results';
import { median } from '@stillstand/science/base';
import {
  type AgedColumn,
  type AgedLayer,
  againstSea,
  type SeaDraws,
  type Spell,
  spells,
  surfaceAt,
} from '@stillstand/science/environments';
import { step } from '../runner/step.ts';
import { agedColumn, type HoleInTime, isInside } from './columns.ts';
import { rangeOf, shareOf } from './ranges.ts';

/** What is said of a layer. */
interface LayerWords {
  unit: string;
  unit_row_id: string;
  sediment: string | null;
}

type Asked = {
  hole: HoleInTime;
  history: HoleHistory;
  words: readonly LayerWords[];
  ages_cal_bp: readonly number[];
  /** Environments that the sea does not reach. */
  inside: readonly string[];
  sea: SeaDraws | null;
};

export const environmentsOfHole = step(
  'environments of a hole',
  ({ hole, history, words, ages_cal_bp, inside, sea }: Asked): EnvironmentResult | null => {
    const column = agedColumn(hole, history);
    const made = spells(column, ages_cal_bp);
    if (made.length === 0) return null;
    const wordsOf = new Map(words.map((each) => [each.unit_row_id, each]));
    const named = (id: string) => ({ unit: wordsOf.get(id)?.unit ?? '', unit_row_id: id });
    return {
      hole: hole.hole,
      converged: history.diagnostics.converged,
      ages_cal_bp: Float64Array.from(ages_cal_bp),
      spells: made.map((spell) => ({
        kind: spell.kind,
        environment: spell.environment,
        sediment: wordsOf.get(thickest(column, spell) ?? '')?.sediment ?? null,
        units: spell.layers.map(named),
        began_cal_bp: rangeOf(spell.began_cal_bp),
        ended_cal_bp: rangeOf(spell.ended_cal_bp),
        years: rangeOf(spell.began_cal_bp.map((began, k) => began - spell.ended_cal_bp[k]!)),
        probability: spell.probability,
        against_sea:
          sea === null || spell.kind !== 'environment' || isInside(spell.environment, inside)
            ? null
            : ofSea(column, spell, sea),
      })),
      beds: column.layers.flatMap(({ id, environment, isAtOnce, levels }) => {
        const age_cal_bp = rangeOf(levels[0]!.age_cal_bp);
        return isAtOnce && age_cal_bp !== null ? [{ ...named(id), environment, age_cal_bp }] : [];
      }),
      surface: surfaceOf(column, ages_cal_bp),
    };
  },
);

function thickest({ layers }: AgedColumn, spell: Spell): string | null {
  const thickness = ({ levels }: AgedLayer): number =>
    median(levels.at(-1)!.depth_m) - median(levels[0]!.depth_m);
  const of = layers.filter(({ id }) => spell.layers.includes(id));
  return of.sort((a, b) => thickness(b) - thickness(a))[0]?.id ?? null;
}

function ofSea(column: AgedColumn, spell: Spell, sea: SeaDraws) {
  const { began_m, ended_m, accretion_mm_yr, rise_mm_yr } = againstSea(column, spell, sea);
  const reached = rise_mm_yr
    .map((rise, k) => accretion_mm_yr[k]! - rise)
    .filter((more) => !Number.isNaN(more));
  const ranges = {
    began_m: rangeOf(began_m),
    ended_m: rangeOf(ended_m),
    accretion_mm_yr: rangeOf(accretion_mm_yr),
    rise_mm_yr: rangeOf(rise_mm_yr),
  };
  const { began_m: began, ended_m: ended, accretion_mm_yr: accretion, rise_mm_yr: rise } = ranges;
  if (began === null || ended === null || accretion === null || rise === null) return null;
  return {
    began_m: began,
    ended_m: ended,
    accretion_mm_yr: accretion,
    rise_mm_yr: rise,
    kept_up: shareOf(reached, (more) => more >= 0),
    reached: reached.length / rise_mm_yr.length,
  };
}

function surfaceOf(column: AgedColumn, ages: readonly number[]): EnvironmentResult['surface'] {
  const each = ages.map((age) => surfaceAt(column, age).elevation_m);
  const ranges = each.map(rangeOf);
  const of = (name: 'median' | 'lower95' | 'upper95') =>
    Float64Array.from(ranges, (range) => range?.[name] ?? Number.NaN);
  return {
    known: Float64Array.from(each, (draws) => shareOf(draws, (draw) => !Number.isNaN(draw))),
    median: of('median'),
    lower95: of('lower95'),
    upper95: of('upper95'),
  };
}
