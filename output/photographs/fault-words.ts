/** Why photographs are not drawn, and what to do. */
import type { PhotographResult } from '@stillstand/campaign/results';
import { MOST_PICTURE, type PictureFault } from './picture-file.ts';

const WHY: Readonly<Record<PictureFault, string>> = {
  missing: 'its file is not in the campaign: add it again',
  heic: 'it is HEIC: convert it to JPEG and add that file in its place',
  'not-a-picture': 'it is neither JPEG nor PNG: convert it to JPEG and add that file in its place',
  'too-large': `it has more than ${MOST_PICTURE.bytes / 1e6} MB or ${MOST_PICTURE.px / 1e6} million pixels: make it smaller and set its scale again`,
  broken: 'its file is damaged: copy it again from the camera',
  'off-picture': 'its marks place the core outside the picture: set its scale again',
};

/** "Photograph of H3 R2 (photos/9f86….jpg) is not drawn: it is HEIC: convert it to JPEG …" */
export const photographFault = (photograph: PhotographResult, fault: PictureFault): string =>
  `Photograph of ${photographName(photograph)} is not drawn: ${WHY[fault]}`;

/** A name by content is 64 letters long: its first tell it from others. */
function photographName({ hole, run, file }: PhotographResult): string {
  const short = file.replace(/([0-9a-f]{8})[0-9a-f]{56}/, '$1…');
  return `${[hole, run].filter((name) => name !== null).join(' ')} (${short})`;
}
