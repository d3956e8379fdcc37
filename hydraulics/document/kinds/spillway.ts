import { ranges } from "../limits.ts";
import type { Spillway } from "../section.ts";
import { may, needs, number, oneOf, text } from "../shape/check.ts";
import { inside } from "../shape/place.ts";
import { id, idOrGround } from "./id.ts";
import type { Kind } from "./kind.ts";

/** A crest over the rim is legal: water then goes over the rim first. */
export const spillway: Kind<Spillway> = {
  called: "a spillway",
  fields: {
    id: needs(id),
    kind: needs(oneOf("spillway")),
    label: may(text),
    from: needs(id),
    to: needs(idOrGround),
    crestZ: needs(number(ranges.level)),
    width: needs(number(ranges.size)),
    crest: may(oneOf("sharp", "broad")),
  },
  refer({ from, to }, at, names, problems) {
    names.expectBody(from, inside(at, "from"), problems);
    names.expectBodyOrGround(to, { id: from, at }, "to", problems);
  },
};
