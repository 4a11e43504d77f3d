/** Room on this device, and the promise of the browser not to clear it. */

export interface Space {
  used_bytes: number;
  /** What the browser allows this app. */
  quota_bytes: number;
  /** True where the browser promised to keep the data until the person clears it. */
  persistent: boolean;
}

/** Null where the browser does not tell. */
export async function space(): Promise<Space | null> {
  if (!('storage' in navigator) || navigator.storage.estimate === undefined) return null;
  const [{ usage, quota }, persistent] = await Promise.all([
    navigator.storage.estimate(),
    navigator.storage.persisted?.() ?? false,
  ]);
  return { used_bytes: usage ?? 0, quota_bytes: quota ?? 0, persistent };
}

/** Asks the browser to keep the data; resolves with whether it promised. */
export const askToPersist = async (): Promise<boolean> =>
  (await navigator.storage?.persist?.().catch(() => false)) ?? false;
