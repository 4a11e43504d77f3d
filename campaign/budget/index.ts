/** What dates have cost, what is committed, and what is left of the funds; and which samples cannot be dated now. */
export {
  type DateAccount,
  type Dating,
  dateAccount,
  datingOf,
  heldSamples,
  withinFunds,
} from './date-account.ts';
