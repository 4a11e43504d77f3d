/** The campaigns on this device and the one that is open. */

export { type Choice, choicesOf, readingOf, wordings } from './amending.ts';
export type { DocRow } from './content.ts';
export { deviceWords } from './device-words.ts';
export {
  beginCampaign,
  bringCampaign,
  type CampaignRecord,
  campaigns,
  takeAway,
} from './library.ts';
export { openStore } from './open.ts';
export { crew, setCrew, timeWithOffset } from './reading.ts';
export { askToPersist, type Space, space } from './space.ts';
export type { Store } from './store.ts';
export { useUnwritten } from './unwritten.ts';
export { StoreContext, useStore } from './use-store.ts';
