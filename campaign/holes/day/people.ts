/** How many people a crew is: "geologist, driller and hand" is three. */
export const peopleIn = (crew: string | null): number =>
  (crew ?? '').split(/[,;\n]|\band\b/).filter((who) => who.trim() !== '').length;
