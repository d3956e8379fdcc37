/** The public face of the hydraulics library: the only file that `editor/` imports. */
export type * from "./document/section.ts";
export { partId } from "./document/section.ts";
export type * from "./solver/running.ts";
export type * from "./powerCut/powerCut.ts";
export type * from "./findings/finding.ts";
export type * from "./faults/fault.ts";
export { bottomOf, drawnWidth, lineLength, nearestOnLine, pipeLine, placeAt, wallsAt } from "./document/geometry.ts";
export { readSection, readSectionValue } from "./document/read.ts";
export { writeSection } from "./document/write.ts";
export * from "./document/defaults.ts";
export { type Range, most, ranges } from "./document/limits.ts";
export { assess, type AssessOptions, type Assessed, solveRunning } from "./assess.ts";
export type { Assessment } from "./report/assessment.ts";
export { eachFault, surveyFaults, type SurveyStart, type SurveyStep, worstFirst } from "./faults/index.ts";
export { startUp, type StartUp, type StartUpOptions, type StartUpPond, type StartUpVessel } from "./powerCut/startUp.ts";
export { type PipeSize, type SizeSeries, sizeSeries } from "./formulas/sizes.ts";
export { mendsFor } from "./mends/index.ts";
export { cautions } from "./report/cautions.ts";
