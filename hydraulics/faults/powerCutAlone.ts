import type { FaultKind } from "./faultKind.ts";

export const powerCutAlone: FaultKind = {
  code: "powerCut",
  cases: ({ section, powerCut }) => [{ title: "Power cut", part: null, section, run: "powerCut", known: powerCut }],
};
