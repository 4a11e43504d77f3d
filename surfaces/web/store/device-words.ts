/** Why the device refused to keep something, in words a person can act on. */
export function deviceWords(error: unknown): string {
  if (error instanceof Error || error instanceof DOMException) {
    if (error.name === 'QuotaExceededError') return 'this device is full';
    return error.message === '' ? error.name : error.message;
  }
  return String(error);
}
