/** What would change the figures: the system curve, sweeps, two states side by side. */
export {
  type ComparedQuantity,
  type FieldChange,
  type FigureChange,
  fieldChanges,
  figureChanges,
} from "./compare.ts";
export { type FieldPath, numberFields, type SweptField, type SweptQuantity } from "./numberFields.ts";
export { type ReturnPoint, returnCurve } from "./returnCurve.ts";
export {
  type SweepFigures,
  type SweepRange,
  type SweepRow,
  type SweepVerdict,
  seriesFor,
  sizeVariants,
  sweep,
  type Variant,
  variantsOf,
} from "./sweep.ts";
export { curveHead, headNeeded, plottedFlows, type SystemPoint, systemCurve } from "./systemCurve.ts";
