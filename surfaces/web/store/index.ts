/** The campaigns on this device and the one that is open. */

export {
  type Act,
  type ActChange,
  actWords,
  amendedCells,
  type CellsOf,
  type DocRow,
  dayWords,
  doneWords,
  momentWords,
  writerWords,
} from '@stillstand/campaign/replica';
export { crew, newRowId, setCrew, timeWithOffset, today, writerFor } from './crew.ts';
export { deviceWords } from './device-words.ts';
export { type DraftPlace, type Drafts, draftsOf, type KeptDraft } from './drafts.ts';
export { actCalled, actName, earlierId, openAny } from './earlier.ts';
export type { Written } from './last-written.ts';
export {
  type Arrived,
  beginCampaign,
  type CampaignRecord,
  campaigns,
  copiesHere,
  keepCampaign,
  readCampaign,
  takeAway,
} from './library.ts';
export { campaignName, packageId } from './name.ts';
export {
  forgetReceived,
  holdReceived,
  keepReceived,
  lookForReceived,
  type Received,
  useReceived,
  useWantedReceived,
  wantReceived,
} from './received.ts';
export { askToPersist, type Space, space } from './space.ts';
export type { Copy, Store } from './store.ts';
export { useUnwritten } from './unwritten.ts';
export { StoreContext, useStore } from './use-store.ts';
export { forgetWhenSaved } from './when-saved.ts';
