/** Names of errors that calendar ages share, kept apart from those of reservoir offsets. */
const DOSE = 'dose:';

export const doseGroup = (group: string): string => `${DOSE}${group}`;

/** The name as it was given; null for a reservoir offset. */
export const groupOfDoses = (group: string): string | null =>
  group.startsWith(DOSE) ? group.slice(DOSE.length) : null;
