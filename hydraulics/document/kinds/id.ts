import type { PartId } from "../section.ts";
import type { Check } from "../shape/check.ts";

/** 1 to 40 of a-z, 0-9 and `-`. */
export const id: Check<PartId> = (value, at, problems) => {
  if (typeof value === "string" && /^[a-z0-9-]{1,40}$/.test(value)) return value as PartId;
  problems.add(at, "an id of 1 to 40 of a-z, 0-9 and -", value);
  return undefined;
};

/** The id of a body, or the ground, whose name is an id too. */
export const idOrGround: Check<PartId | "ground"> = (value, at, problems) => id(value, at, problems);
