/** Why the device refused to keep something, in words a person can act on; else what it reported itself. */
export function deviceWords(error: unknown): string {
  if (!(error instanceof Error || error instanceof DOMException))
    return `the device reported: ${String(error)}`;
  if (error.name === 'QuotaExceededError') return 'this device is full';
  return `the device reported: ${error.message === '' ? error.name : error.message}`;
}
