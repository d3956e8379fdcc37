import { most, ranges } from "../limits.ts";
import type { MediaLayer, Plan, Vessel } from "../section.ts";
import { type Check, isObject, list, may, needs, number, object, oneOf, text } from "../shape/check.ts";
import { inside } from "../shape/place.ts";
import { id, idOrGround } from "./id.ts";
import type { Kind } from "./kind.ts";

const round = object<Extract<Plan, { shape: "round" }>>("a round plan", {
  shape: needs(oneOf("round")),
  diameter: needs(number(ranges.size)),
});
const rectangle = object<Extract<Plan, { shape: "rectangle" }>>("a rectangular plan", {
  shape: needs(oneOf("rectangle")),
  width: needs(number(ranges.size)),
  length: needs(number(ranges.size)),
});
const shape = oneOf("round", "rectangle");

const plan: Check<Plan> = (value, at, problems) => {
  if (!isObject(value)) {
    problems.add(at, "a plan, round or rectangle", value);
    return undefined;
  }
  const known = shape(Object.hasOwn(value, "shape") ? value.shape : undefined, inside(at, "shape"), problems);
  if (known === undefined) return undefined;
  return known === "round" ? round(value, at, problems) : rectangle(value, at, problems);
};

const layer = object<MediaLayer>("a layer of media", {
  depth: needs(number(ranges.layerDepth)),
  grain: needs(number(ranges.grain)),
  porosity: needs(number(ranges.porosity)),
});

/** Media may be heaped over the rim: what stands over it holds no water and does not count. */
export const vessel: Kind<Vessel> = {
  called: "a vessel",
  fields: {
    id: needs(id),
    kind: needs(oneOf("vessel")),
    label: may(text),
    x: needs(number(ranges.x)),
    plan: needs(plan),
    baseLevel: needs(number(ranges.level)),
    rimLevel: needs(number(ranges.level)),
    media: may(list(layer, { what: "layers", min: 0, max: most.layers })),
    clogging: may(number(ranges.clogging)),
    overflow: may(idOrGround),
  },
  agree({ baseLevel, rimLevel }, at, problems) {
    if (rimLevel > baseLevel) return;
    problems.addNumber(
      inside(at, "rimLevel"),
      ({ one }) => `a rim above the base, which lies at ${one(baseLevel, "level")}`,
      rimLevel,
      "level",
    );
  },
  refer({ id: own, overflow }, at, names, problems) {
    if (overflow !== undefined) names.expectBodyOrGround(overflow, { id: own, at }, "overflow", problems);
  },
};
