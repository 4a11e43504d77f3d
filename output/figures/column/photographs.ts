/** The photographs of a hole that its graphic log draws, and what is said of those it cannot draw. */
import type { Results } from '@stillstand/campaign/results';
import { photographFault, type StripPicture, stripSpan } from '@stillstand/output/photographs';

export interface PhotographLane {
  strips: { row_id: string; url: string; from_m: number; to_m: number }[];
  /** A sentence each, without its full stop. */
  faults: string[];
}

/** Nothing where no pictures are given: results alone draw everything else. */
export function photographLane(
  results: Results,
  hole: string,
  pictures: ReadonlyMap<string, StripPicture> = new Map(),
): PhotographLane {
  const lane: PhotographLane = { strips: [], faults: [] };
  for (const photograph of results.photographs) {
    const span = photograph.hole === hole ? stripSpan(photograph) : null;
    const picture = pictures.get(photograph.row_id);
    if (span === null || picture === undefined) continue;
    if ('fault' in picture) lane.faults.push(photographFault(photograph, picture.fault));
    else lane.strips.push({ row_id: photograph.row_id, url: picture.url, ...span });
  }
  return lane;
}
