/** The public face of the hydraulics library: the only file that `editor/` imports. */

export { type Assessed, type AssessOptions, assess, solveRunning } from "./assess.ts";
export * from "./document/defaults.ts";
export { bottomOf, drawnWidth, lineLength, nearestOnLine, pipeLine, placeAt, wallsAt } from "./document/geometry.ts";
export { most, type Range, ranges } from "./document/limits.ts";
export { readSection, readSectionValue } from "./document/read.ts";
export type * from "./document/section.ts";
export { partId } from "./document/section.ts";
export { writeSection } from "./document/write.ts";
export type * from "./faults/fault.ts";
export { eachFault, type SurveyStart, type SurveyStep, surveyFaults, worstFirst } from "./faults/index.ts";
export type * from "./findings/finding.ts";
export { type PipeSize, type SizeSeries, sizeSeries } from "./formulas/sizes.ts";
export { foot, gallon, inch, pound, psi } from "./formulas/units.ts";
export { type AnswerKey, answerBounds, type LayoutAnswers, type LayoutRefusal } from "./layout/answers.ts";
export { type Layout, layOut } from "./layout/layOut.ts";
export { suggestAnswers } from "./layout/suggest.ts";
export * from "./materials/index.ts";
export { mendsFor } from "./mends/index.ts";
export type * from "./powerCut/powerCut.ts";
export type { Starts } from "./powerCut/starts.ts";
export {
  type StartUp,
  type StartUpOptions,
  type StartUpPond,
  type StartUpVessel,
  startUp,
} from "./powerCut/startUp.ts";
export type { Assessment } from "./report/assessment.ts";
export { cautions } from "./report/cautions.ts";
export * from "./report/formats.ts";
export { plainJson } from "./report/plain.ts";
export { namesToKeep, sentenceIn } from "./report/sentence.ts";
export * from "./sizing/index.ts";
export type * from "./solver/running.ts";
export * from "./sweep/index.ts";
export * from "./worked/index.ts";
