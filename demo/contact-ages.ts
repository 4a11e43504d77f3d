/**
 * When the contacts of the invented coast were truly laid down. A contact formed when the sea was as far below it as its
 * layer forms above the sea: as far as at the nearest sample of the layer, or as an environment goes (invented: peat
 * gives way to mud where mean high water comes above it, mud to clay where mean low water does, a beach begins at low
 * water springs, turf where high water springs no longer come).
 */
import type { SampleTruth } from './dating.ts';
import { ageOfFallingLevel, ageOfRisingLevel, FALLING, RISING, TRUE_TIDE_M, trueLevel } from './sea.ts';
import { baseOf, LATE_PEAT_CAL_BP, layerAt, type Place } from './section.ts';

/** A place in a hole and when it was the surface. */
export interface Knot {
  height_m: number;
  age_cal_bp: number;
}

/** A layer that took time: name, true age of its top and of its base, cal BP. */
type AgedContacts = readonly [key: string, top_cal_bp: number, base_cal_bp: number];
type End = 'top' | 'base';

const { MHW, MLW, MHWS, MLWS, HAT, LAT } = TRUE_TIDE_M;
/** Waves cut so far below the lowest tide where the shore moved over the flats, m (invented). */
const CUT_M = 1;
/** Of what was the living ground when it was cored. */
const CORED_CAL_BP = 1950 - 2023;

/** Asks for ages of contacts of one place. */
function contactsOf(place: Place, samples: readonly SampleTruth[]) {
  const layerOf = (key: string) => place.layers.find((layer) => layer.key === key)!;
  const heightOf = (key: string, end: End): number =>
    end === 'top' ? layerOf(key).top_m : baseOf(place, layerOf(key));
  const samplesOf = (key: string): SampleTruth[] =>
    samples.filter(({ elevation_m }) => layerAt(place, elevation_m).key === key);
  // Where a layer of another seed lies higher than the sea ever stood below it: by the end of the rise, or of the fall.
  const risen = (level_m: number): number =>
    ageOfRisingLevel(level_m) ?? (level_m < trueLevel(RISING.oldest) ? RISING.oldest : RISING.youngest);
  const fallen = (level_m: number): number =>
    ageOfFallingLevel(level_m) ?? (level_m < trueLevel(FALLING.youngest) ? FALLING.youngest : FALLING.oldest);
  return {
    /** When the rising sea was so far below it. What has sunk since formed higher. */
    rising: (key: string, end: End, tide_m: number): number =>
      risen(heightOf(key, end) + (samplesOf(key)[0]?.lowering_m ?? 0) - tide_m),
    falling: (key: string, end: End, tide_m: number): number => fallen(heightOf(key, end) - tide_m),
    /** When the rising sea was as far below it as below the nearest sample of the layer. */
    likeSample: (key: string, end: End): number => {
      const height_m = heightOf(key, end);
      const far = ({ elevation_m }: SampleTruth): number => Math.abs(elevation_m - height_m);
      const { lowering_m, tide_m } = samplesOf(key).sort((a, b) => far(a) - far(b))[0]!;
      return risen(height_m + lowering_m - tide_m);
    },
    /** On the straight line through the samples of the layer, and its other end where one age is known there. */
    onLine: (key: string, end: End, other_cal_bp?: number): number => {
      const other = end === 'top' ? 'base' : 'top';
      const known: Knot[] = samplesOf(key).map(({ elevation_m, age_cal_bp }) => ({
        height_m: elevation_m,
        age_cal_bp,
      }));
      if (other_cal_bp !== undefined)
        known.push({ height_m: heightOf(key, other), age_cal_bp: other_cal_bp });
      const [a, b] = known as [Knot, Knot];
      const perMetre = (b.age_cal_bp - a.age_cal_bp) / (b.height_m - a.height_m);
      return a.age_cal_bp + perMetre * (heightOf(key, end) - a.height_m);
    },
  };
}

type Contacts = ReturnType<typeof contactsOf>;

/** From the top down; a layer laid down at once is between the ages of those that it parts. */
const COAST: Readonly<Record<string, (at: Contacts) => AgedContacts[]>> = {
  T2: (at) => {
    const [beach, shore] = [at.onLine('dune', 'base'), at.rising('shoreface', 'top', MLWS)];
    const drowned = at.rising('fan peat', 'top', MHW);
    // The sand of the fan lay where peat could grow at once.
    const fan = at.likeSample('fan peat', 'base');
    const [lagoon, mud, peat] = [
      at.rising('lagoon', 'base', MLW),
      at.rising('basal peat', 'top', MHW),
      at.likeSample('basal peat', 'base'),
    ];
    return [
      ['dune', at.onLine('dune', 'top'), beach],
      ['beach', beach, shore],
      ['shoreface', shore, at.rising('shoreface', 'base', LAT - CUT_M)],
      ['flat', at.onLine('flat', 'top', drowned), drowned],
      ['fan peat', drowned, fan],
      ['lagoon', fan, lagoon],
      ['drowning', lagoon, mud],
      ['basal peat', mud, peat],
      ['soil', peat, at.onLine('soil', 'base', peat)],
    ];
  },
  T3: (at) => {
    const late = at.likeSample('late lagoon', 'top');
    const [drowned, fan] = [at.likeSample('fan peat', 'top'), at.likeSample('fan peat', 'base')];
    const [lagoon, mud, peat] = [
      at.rising('lagoon', 'base', MLW),
      at.likeSample('basal peat', 'top'),
      at.likeSample('basal peat', 'base'),
    ];
    return [
      // Until the highest tides no longer came; one storm or another has laid sand on it since.
      ['late peat', at.falling('late peat', 'top', HAT), LATE_PEAT_CAL_BP.back],
      ['flat', LATE_PEAT_CAL_BP.back, late],
      ['late lagoon', late, drowned],
      ['fan peat', drowned, fan],
      ['lagoon', fan, lagoon],
      ['drowning', lagoon, mud],
      ['basal peat', mud, peat],
      ['soil', peat, at.onLine('soil', 'base', peat)],
    ];
  },
  M1: (at) => {
    const [filled, peat] = [at.likeSample('lagoon', 'top'), at.likeSample('basal peat', 'base')];
    return [
      ['late peat', CORED_CAL_BP, LATE_PEAT_CAL_BP.outer],
      ['flat', LATE_PEAT_CAL_BP.outer, filled],
      ['lagoon', filled, at.likeSample('lagoon', 'base')],
      ['basal peat', at.likeSample('basal peat', 'top'), peat],
      ['soil', peat, at.onLine('soil', 'base', peat)],
    ];
  },
  M2: (at) => {
    const [dry, filled] = [at.falling('turf', 'base', MHWS), at.likeSample('lagoon', 'top')];
    const [drowned, peat] = [at.likeSample('basal peat', 'top'), at.likeSample('basal peat', 'base')];
    return [
      ['turf', CORED_CAL_BP, dry],
      ['late peat', dry, LATE_PEAT_CAL_BP.inner],
      ['flat', LATE_PEAT_CAL_BP.inner, filled],
      ['lagoon', filled, drowned],
      ['basal peat', drowned, peat],
      ['soil', peat, at.onLine('soil', 'base', peat)],
    ];
  },
  M3: (at) => {
    const dry = at.falling('turf', 'base', MHWS);
    return [
      ['turf', CORED_CAL_BP, dry],
      ['basal peat', dry, LATE_PEAT_CAL_BP.edge],
      ['soil', LATE_PEAT_CAL_BP.edge, at.onLine('soil', 'base', LATE_PEAT_CAL_BP.edge)],
    ];
  },
};

/** Holes whose layers have true ages. */
export const AGED_HOLES: readonly string[] = Object.keys(COAST);

/** Layers of a hole that took time, without the lowest, whose base was not reached. */
export const agedContacts = (
  hole: string,
  place: Place,
  samples: readonly SampleTruth[],
): readonly AgedContacts[] =>
  COAST[hole]!(
    contactsOf(
      place,
      samples.filter((sample) => sample.hole === hole && sample.is_in_place),
    ),
  );
