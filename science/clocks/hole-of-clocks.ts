/** What the clocks of a hole say of its ages: plain data, that age against depth in the hole and a curve of sea level read alike. */
import type { AgeDepthInput, AgeDepthSettings } from '@stillstand/science/dating';
import type { LeadProfile } from '@stillstand/science/lead';
import type { AgeConstraint } from './age-constraint.ts';
import { type LeadInHistory, leadInHistory } from './lead-in-history.ts';

export interface HoleOfClocks {
  hole: string;
  /** Dates, breaks, beds, layers and the ground's age; what reads many depths at once comes from `lead`. */
  input: Omit<AgeDepthInput, 'profiles'>;
  /** Lead-210 of the hole, under the name of its profile. */
  lead: { label: string; profile: LeadProfile } | null;
  /**
   * Dates, by their names in `input`, that share an error with others: where several holes or a curve are read together the
   * error is one. Ages of the hole alone have it in each date by itself.
   */
  shared: readonly { id: string; age: AgeConstraint }[];
  settings: AgeDepthSettings;
}

/** As age against depth takes it; and what became of the lead, null where there is none. */
export function inHistory({ input, lead }: Pick<HoleOfClocks, 'input' | 'lead'>): {
  input: AgeDepthInput;
  lead: LeadInHistory | null;
} {
  if (lead === null) return { input, lead };
  const { breaks, beds = [] } = input;
  const highest = [...breaks.map(({ depth_m }) => depth_m), ...beds.map(({ top_m }) => top_m)].map((draws) =>
    draws.reduce((a, b) => Math.min(a, b)),
  );
  const read = leadInHistory(lead.label, lead.profile, input.bottom_m, highest);
  if (read.kind === 'not_read') return { input, lead: read };
  const { surface, profiles } = read;
  return { input: { ...input, surface, profiles }, lead: read };
}
