import { ranges } from "../limits.ts";
import type { Pond } from "../section.ts";
import { may, needs, number, oneOf, text } from "../shape/check.ts";
import { inside } from "../shape/place.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";

/** A pond's water level is given, not found, so it has to be one at which the pond can stand: from its bed (dry)
 * to its rim (brim-full). A level over the rim would be water without walls; rain and falling columns may still
 * take it there in a simulation. */
export const pond: Kind<Pond> = {
  called: "a pond",
  fields: {
    id: needs(id),
    kind: needs(oneOf("pond")),
    label: may(text),
    x: needs(number(ranges.x)),
    width: needs(number(ranges.size)),
    length: needs(number(ranges.size)),
    bedLevel: needs(number(ranges.level)),
    rimLevel: needs(number(ranges.level)),
    waterLevel: needs(number(ranges.level)),
    sideSlope: may(number(ranges.sideSlope)),
  },
  agree({ bedLevel, rimLevel, waterLevel }, at, problems) {
    if (rimLevel <= bedLevel) {
      problems.addNumber(
        inside(at, "rimLevel"),
        ({ one }) => `a rim above the bed, which lies at ${one(bedLevel, "level")}`,
        rimLevel,
        "level",
      );
    } else if (waterLevel < bedLevel || waterLevel > rimLevel) {
      problems.addNumber(
        inside(at, "waterLevel"),
        ({ one }) => `a water level from the bed at ${one(bedLevel, "level")} to the rim at ${one(rimLevel, "level")}`,
        waterLevel,
        "level",
      );
    }
  },
};
