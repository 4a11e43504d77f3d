/** A strip of a picture in pieces along the core, each straight on the page. */

export interface DrawnSlice {
  from_m: number;
  to_m: number;
  y1: number;
  y2: number;
}

/** Points by which a piece may bend on the page (a tenth of a millimetre), and the shortest piece looked at. */
const BEND_PT = 0.3;
const LEAST_M = 0.002;
const PARTS = 8;

/**
 * Pieces of the core from top to bottom over which `y`, the place on the page, runs straight: halved until it does, and
 * joined again where it goes on straight. What has no height is left out: core that has no place in the ground.
 */
export function straightSlices(y: (at_m: number) => number, top_m: number, bottom_m: number): DrawnSlice[] {
  const found: DrawnSlice[] = [];
  const add = (next: DrawnSlice): void => {
    const last = found.at(-1);
    const along = last === undefined ? 0 : (last.to_m - last.from_m) / (next.to_m - last.from_m);
    const isStraight =
      last?.to_m === next.from_m &&
      last.y2 === next.y1 &&
      Math.abs(last.y1 + along * (next.y2 - last.y1) - next.y1) < BEND_PT / 10;
    if (isStraight) found[found.length - 1] = { ...last, to_m: next.to_m, y2: next.y2 };
    else found.push(next);
  };
  const look = (from_m: number, to_m: number, y1: number, y2: number): void => {
    const third = (to_m - from_m) / 3;
    const bend = Math.max(
      Math.abs(y(from_m + third) - (2 * y1 + y2) / 3),
      Math.abs(y(to_m - third) - (y1 + 2 * y2) / 3),
    );
    if (bend < BEND_PT || to_m - from_m < LEAST_M) {
      if (y2 > y1) add({ from_m, to_m, y1, y2 });
      return;
    }
    const middle = (from_m + to_m) / 2;
    look(from_m, middle, y1, y(middle));
    look(middle, to_m, y(middle), y2);
  };
  // Parts first: a bend that happens to pass through the thirds is not missed.
  const place = (part: number): number => top_m + ((bottom_m - top_m) * part) / PARTS;
  for (let part = 0; part < PARTS; part++) {
    const [from_m, to_m] = [place(part), place(part + 1)];
    if (to_m > from_m) look(from_m, to_m, y(from_m), y(to_m));
  }
  return found;
}
