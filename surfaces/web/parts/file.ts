import { printed } from '@stillstand/output/words';

/** Gives a file to the device. */
export function download(blob: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** A file name that every system takes. */
export const fileName = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[^\w -]+/g, '')
    .trim()
    .replace(/\s+/g, '-')
    .slice(0, 60) || 'campaign';

/** "640 kB", "12 MB", "1.4 GB". */
export const fileSize = (bytes: number): string =>
  bytes < 1e6
    ? `${printed(bytes / 1e3, 0)} kB`
    : bytes < 1e9
      ? `${printed(bytes / 1e6, 0)} MB`
      : `${printed(bytes / 1e9, 1)} GB`;
