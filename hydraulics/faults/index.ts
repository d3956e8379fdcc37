/** The survey of single faults: one at a time on top of the drawn state, to rest or for a day. */
export type { SurveyStart } from "./faultKind.ts";
export { faultKinds } from "./faultKinds.ts";
export { eachFault, type SurveyStep, surveyFaults, worstFirst } from "./survey.ts";
