/** The photographs of a hole that its graphic log draws, and what is said of those it cannot draw. */
import type { PhotographResult, Results } from '@stillstand/campaign/results';
import {
  type PictureFault,
  photographFaults,
  type StripPicture,
  stripSpan,
} from '@stillstand/output/photographs';

export interface PhotographLane {
  strips: { row_id: string; url: string; from_m: number; to_m: number }[];
  /** A sentence each, without its full stop. */
  faults: string[];
  /** Of the core too, without marks to cut them out by. */
  uncut: number;
}

/** Nothing where no pictures are given: results alone draw everything else. */
export function photographLane(
  results: Results,
  hole: string,
  pictures: ReadonlyMap<string, StripPicture> | undefined,
): PhotographLane {
  const lane: PhotographLane = { strips: [], faults: [], uncut: 0 };
  if (pictures === undefined) return lane;
  const faulty: { photograph: PhotographResult; fault: PictureFault }[] = [];
  for (const photograph of results.photographs.filter((each) => each.hole === hole)) {
    if (photograph.strip === null && photograph.slices.length > 0) lane.uncut += 1;
    const span = stripSpan(photograph);
    const picture = pictures.get(photograph.row_id);
    if (span === null || picture === undefined) continue;
    if ('fault' in picture) faulty.push({ photograph, fault: picture.fault });
    else lane.strips.push({ row_id: photograph.row_id, url: picture.url, ...span });
  }
  lane.faults.push(...photographFaults(faulty));
  return lane;
}
