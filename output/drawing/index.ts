/** What figures, report and screens draw with: inks, text that is measured, staffs, marks, patterns, places for labels. */

export { AgeDensity, AgeSwatch, isMarine, outline } from './age-density.tsx';
export { Contact } from './contact.tsx';
export { CoreSymbol, coreSymbols } from './core-symbol.tsx';
export { DASHED, DOTTED, INKS, InkContext, type Inks, inksFor, LINE, type Theme, useInk } from './ink.ts';
export {
  AssumedMark,
  CautionMark,
  EDGE_ARROW,
  EdgeArrow,
  Hatching,
  Lozenge,
  NotConvergedMark,
  PointMark,
  type PointPlace,
  SharedMark,
  StopMark,
} from './marks.tsx';
export { boxAround, isWithin, levelWithin, roomWithin } from './outline.ts';
export { box, crossed, dot, horizontal, line, move, polygon, polyline, r2, vertical, wave } from './path.ts';
export { Pattern, PatternWithin } from './pattern.tsx';
export { covered, overlaps, placeAlong, placeBeside, type Rect } from './place.ts';
export { lossUnknown, recoveredBar } from './recovered.ts';
export { inRows } from './rows.ts';
export { multiples, roundLength, type Scale, scale } from './scale.ts';
export { hasNoPattern, sedimentOf, sedimentOfUnit } from './sediment.ts';
export type { Sediment } from './sediment-table.ts';
export { SITE_MARKS, SiteMark } from './site-mark.tsx';
export { LyingStaff, Ruling, staffStep, UprightStaff } from './staff.tsx';
export {
  firstLines,
  PLAIN_ZERO_FAMILY,
  SIZE,
  Span,
  shortened,
  TEXT_FAMILY,
  Text,
  textWidth,
  wrapped,
  ZOOM,
} from './text.tsx';
