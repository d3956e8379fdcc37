/** What would change the figures: the system curve, sweeps, two states side by side. */
export { type ComparedQuantity, type FigureChange, figureChanges } from "./compare.ts";
export { numberFields, type SweptField, type SweptQuantity } from "./numberFields.ts";
export { type ReturnPoint, returnCurve } from "./returnCurve.ts";
export {
  type SweepFigures,
  type SweepRange,
  type SweepRow,
  seriesFor,
  sizeVariants,
  sweep,
  variantsOf,
} from "./sweep.ts";
export { curveHead, headNeeded, plottedFlows, type SystemPoint } from "./systemCurve.ts";
export { withNumber } from "./withNumber.ts";
