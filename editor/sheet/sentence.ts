/** Sentences of results in the sheet's own units: the same piece that the command line's report is turned by. */
export { type Says, sentenceIn, sentencesOf } from "../../hydraulics/index.ts";
