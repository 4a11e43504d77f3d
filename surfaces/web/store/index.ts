/** The campaigns on this device and the one that is open. */

export { amending } from './amending.ts';
export type { DocRow } from './content.ts';
export {
  type Brought,
  beginCampaign,
  bringCampaign,
  type CampaignRecord,
  campaigns,
  takeAway,
} from './library.ts';
export { isInterpretation, openStore } from './open.ts';
export { type Crew, crew, setCrew, timeWithOffset } from './reading.ts';
export { askToPersist, type Space, space } from './space.ts';
export type { Cells, Store } from './store.ts';
export { StoreContext, useStore } from './use-store.ts';
