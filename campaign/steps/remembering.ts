/** A depth model that does not compute an answer twice: its questions are few and come again with every edit. */
import type { DepthCurve, DepthEstimate, DepthModel } from '@stillstand/science/depth';

export function remembering(model: DepthModel): DepthModel {
  const depths = new Map<string, DepthEstimate>();
  const curves = new Map<number | undefined, DepthCurve>();
  return {
    ...model,
    inSituDepth: (entered) => {
      const key = typeof entered === 'number' ? String(entered) : JSON.stringify(entered);
      const depth = depths.get(key) ?? model.inSituDepth(entered);
      depths.set(key, depth);
      return depth;
    },
    curve: (points) => {
      const curve = curves.get(points) ?? model.curve(points);
      curves.set(points, curve);
      return curve;
    },
  };
}
