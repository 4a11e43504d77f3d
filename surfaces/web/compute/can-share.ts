/** Whether page and workers may share memory: without it a computation that is stale cannot hear so. */
export const canShare = (): boolean =>
  globalThis.crossOriginIsolated === true && typeof SharedArrayBuffer === 'function';
