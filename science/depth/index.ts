/** Depth registration: from a length along everything that entered to a depth in the ground. */
export { depthModel } from './decaying.ts';
export { depthCurve, inSituDepth, inSituDepths } from './in-situ.ts';
export type { DepthCurve, DepthEstimate, DepthInput, DepthModel, Misfit } from './model.ts';
export { type Push, placeInPush, type ReducedPush, reducePush } from './push.ts';
export { allAtTopModel, uniformModel } from './rival.ts';
export { type DepthSettings, depthDefaults } from './settings.ts';
export { enteredLength } from './shortening.ts';
