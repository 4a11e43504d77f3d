/** A curve module: rows at even steps, [step, how many such steps], from `first`; differences of age and sigma. */
export interface EncodedCurve {
  first: number;
  steps: readonly (readonly [number, number])[];
  c14_age: string;
  sigma_yr: string;
}
