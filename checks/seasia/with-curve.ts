/** The same with its curve, most of a minute of computing: once for all files of a process. */
import { computedCampaign } from './computed.ts';

export const withCurve = await computedCampaign({ withCurve: true });
