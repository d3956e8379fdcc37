/** The survey of single faults: one at a time on top of the drawn state, to rest or for a day. */
export type { SurveyStart } from "./faultKind.ts";
export { faultKinds } from "./faultKinds.ts";
export { eachFault, surveyFaults, type SurveyStep, worstFirst } from "./survey.ts";
