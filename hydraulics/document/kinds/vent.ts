import { ranges } from "../limits.ts";
import type { Vent } from "../section.ts";
import { may, needs, number, oneOf, text } from "../shape/check.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";
import { onPipe, referToPipe } from "./onPipe.ts";

/** That its open end is not below its tee is seen in `layout.ts`, where the pipe's level is known. */
export const vent: Kind<Vent> = {
  called: "a vent",
  fields: {
    id: needs(id),
    kind: needs(oneOf("vent")),
    label: may(text),
    on: needs(onPipe),
    bore: needs(number(ranges.bore)),
    open: may(number(ranges.share)),
    openEndZ: may(number(ranges.level)),
  },
  refer: referToPipe,
};
