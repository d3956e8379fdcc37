import type { FittingType, Mouth } from "../../../hydraulics/index.ts";

export const mouthWords: readonly (readonly [Mouth, string])[] = [
  ["side", "flush in the wall"],
  ["down", "facing down"],
  ["up", "facing up"],
];

export const fittingWords: readonly (readonly [FittingType, string])[] = [
  ["elbow90", "elbow 90°"],
  ["elbow45", "elbow 45°"],
  ["swept90", "swept bend 90°"],
  ["teeRun", "tee, straight through"],
  ["teeBranch", "tee, by the branch"],
  ["strainer", "strainer"],
  ["other", "other, by its K"],
];
