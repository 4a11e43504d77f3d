/** What a copy without photos says of them, in a text file in the zip: they are on another device, not lost. */

export const PHOTOS_LEFT_OUT = 'photos-left-out.txt';

const HEAD = [
  'Photos that are not in this copy. They are not lost: the device that made the copy, or a copy with photos, has them.',
  'Merge or open such a copy to have them here.',
];

/** Paths within the campaign, one a line after an empty line. */
export const leftOutList = (paths: readonly string[]): string => `${[...HEAD, '', ...paths].join('\n')}\n`;

export function leftOutPaths(list: string): string[] {
  const lines = list.split(/\r?\n/);
  return lines.slice(lines.indexOf('') + 1).filter((line) => line !== '');
}
