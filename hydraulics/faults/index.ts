/** The survey of single faults: one at a time on top of the drawn state, to rest or for a day. */
export { faultKinds } from "./faultKinds.ts";
export { eachFault, playFault, sectionInFault, surveyFaults, worstFirst } from "./survey.ts";
