/** Sentences of results in the sheet's own units: the same piece that the command line's report is turned by. */
export { namesToKeep, sentenceIn } from "../../hydraulics/index.ts";
