/** Ages of one sequence with known gaps. */
export { DISAGREES, matchSequence, type Sequence, type SequenceMember } from './sequence.ts';
