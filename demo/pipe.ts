/** The pipe on the truck: joints of three makes, each measured end to end in the unit of whoever held the tape. */
import { FOOT_M, type RandomStream } from '@stillstand/science/base';
import { centimetres, feet, feetValue, metres } from './sheet.ts';

export interface Pipe {
  label: string;
  /** True length, metres. */
  length_m: number;
  /** As typed, and what that is in metres. */
  typed: string;
  typed_m: number;
}

/** Length lost in each made-up thread, metres; typed "1 1/4 in" in the table of pipes. */
export const MAKEUP_LOSS_M = 0.03175;
export const MAKEUP_LOSS_TYPED = '1 1/4 in';

/** The shoe: a short toothed piece threaded to the lowest joint. */
export const SHOE: Pipe = { label: 'S', length_m: 0.152, typed: '15.2 cm', typed_m: 0.152 };

/** Nominal joints by the letter of their label. */
const MAKES = {
  A: { nominal_m: 10 * FOOT_M, tape: 'feet' },
  B: { nominal_m: 5 * FOOT_M, tape: 'feet' },
  C: { nominal_m: 3, tape: 'metres' },
} as const;

/** A joint by its label, such as A4: always the same piece of pipe. */
export function pipe(random: RandomStream, label: string): Pipe {
  const own = random.split(label);
  const make = MAKES[label[0] as keyof typeof MAKES];
  // Rethreaded ends make old joints a little short.
  const length_m = make.nominal_m - Math.abs(0.012 * own.normal());
  const read_m = length_m + 0.0015 * own.normal();
  if (make.tape === 'feet') {
    return { label, length_m, typed: feet(read_m), typed_m: feetValue(read_m) };
  }
  // Every other metric joint was measured by the one who writes centimetres.
  return Number(label.slice(1)) % 2 === 0
    ? { label, length_m, typed: centimetres(read_m), typed_m: Math.round(read_m * 100) / 100 }
    : { label, length_m, typed: metres(read_m, 3), typed_m: Math.round(read_m * 1000) / 1000 };
}
