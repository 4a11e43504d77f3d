/**
 * Figures of results: each a component drawn to static SVG in points, two typefaces, one set of inks. Of four of them
 * the drawing itself too, for the screens that show it at their own size. What figures are drawn with is `output/drawing`.
 */
export { AgeDepthDrawing, dateAt } from './age-depth/drawing.tsx';
export { type AgeDepthLayout, type AgeScaleName, ageDepthLayout } from './age-depth/layout.ts';
export { AgeDepthLegend, ageDepthLegend } from './age-depth/legend.tsx';
export { type DateState, type PlacedDate, placedDates } from './age-depth/placed.ts';
export { twoHistories } from './age-depth/two-histories.ts';
export { ageDepthFigure } from './age-depth-figure.tsx';
export { agesAcrossFigure } from './ages-across-figure.tsx';
export { captionsText } from './captions.ts';
export { type Lane, lanesOf } from './column/laboratory.ts';
export {
  LaboratoryDrawing,
  type LaboratoryLayout,
  laboratoryLayout,
  laneName,
} from './column/laboratory-drawing.tsx';
export { lanesCaption } from './column/laboratory-lanes.tsx';
export { columnBottom } from './column/lanes.ts';
export { graphicLog } from './column-figure.tsx';
export { AGE_SCALES, type CurveAxes, checkedAxes, RATE_UNITS } from './curve/axes.ts';
export { CurveDrawing } from './curve/drawing.tsx';
export { type CurveLayout, curveLayout } from './curve/layout.ts';
export type { RateBar } from './curve/rate-labels.ts';
export { curveFigure } from './curve-figure.tsx';
export { datesFigure } from './dates-figure.tsx';
export { EnvironmentsDrawing } from './environments/drawing.tsx';
export { type EnvironmentsLayout, environmentsLayout } from './environments/layout.ts';
export { environmentsFigure } from './environments-figure.tsx';
export { errorBudgetFigure } from './error-budget-figure.tsx';
export { FenceDrawing } from './fence/drawing.tsx';
export { fenceLayout } from './fence/layout.ts';
export { fenceLines } from './fence/plan.ts';
export { fenceFigure, whyNoFence } from './fence-figure.tsx';
export type { Figure, FigureOptions } from './figure.tsx';
export { figuresOf } from './figures-of.ts';
export { grainSizeFigure } from './grain-size-figure.tsx';
export { HOLE_DRAWING, HoleDrawing, holeWords } from './hole-figure/drawing.tsx';
export { type HoleView, type HoleViewAhead, type HoleViewUnit, holeView } from './hole-figure/view.ts';
export { holeFigure } from './hole-figure.tsx';
export { laboratoryFigure } from './laboratory-figure.tsx';
export { leadProfileFigure } from './lead-profile-figure.tsx';
export { locationFigure } from './location-figure.tsx';
export { type MapLayout, mapLayout } from './map/layout.ts';
export { CampaignMap } from './map/map.tsx';
export type { Mapped } from './map/mapped.ts';
export { penetrationFigure } from './penetration-figure.tsx';
export { plateFigure } from './plate-figure.tsx';
export { pngChunk, withResolution } from './png-resolution.ts';
export { recoveryFigure } from './recovery-figure.tsx';
export { type RegistrationOptions, registrationFigure } from './registration-figure.tsx';
export { ageRects } from './section/ages.tsx';
export { scaleAlong } from './section/along.tsx';
export { SectionInside, sectionInside } from './section/inside.tsx';
export { type Stand, sectionLayout } from './section/layout.ts';
export { HoleHead, nameWords } from './section/names.tsx';
export { tieDashes, tieLine } from './section/ties.tsx';
export { sectionFigure, sectionFigures } from './section-figure.tsx';
export { WIDTHS_MM } from './widths.ts';
