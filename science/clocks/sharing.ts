/** The dates of a hole that share an error, as they are read given that error. */
import type { HoleTogether } from '@stillstand/science/dating';
import { priorOfAge } from './age-prior.ts';
import type { HoleOfClocks } from './hole-of-clocks.ts';

/** A date whose age has no mass, or none within the range of ages, shares none. */
export const sharingOf = ({
  shared,
  settings,
}: Pick<HoleOfClocks, 'shared' | 'settings'>): HoleTogether['shared'] =>
  shared.flatMap(({ id, age }) => {
    const sharing = priorOfAge(age, settings.age_range_cal_bp)?.shared ?? null;
    return sharing === null ? [] : [{ id, sharing }];
  });
