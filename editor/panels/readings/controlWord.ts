import type { Control } from "../../../hydraulics/index.ts";

const words: Readonly<Record<Control, string>> = {
  inlet: "its inlet",
  outlet: "its outlet",
  route: "its route",
  rim: "the rim",
  none: "nothing",
};

/** What limits a flow by gravity. */
export const controlWord = (control: Control): string => words[control];
