/** The strip's axis is the scene's: the hand and the picture must agree. */
export { stripAxis, stripPlot } from "../scene/stripAxis.ts";
