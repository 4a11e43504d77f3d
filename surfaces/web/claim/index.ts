/** What Points and Curve share of a point: its claim on the sea while it is edited, its error budget, its mark. */
export type { Claim, Made, Meaning } from './claim.ts';
export { SmallMark } from './point-mark.tsx';
export { RejectionReason } from './rejection-reason.tsx';
export { useClaim } from './use-claim.tsx';
