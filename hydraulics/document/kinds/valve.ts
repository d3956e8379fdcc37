import { ranges } from "../limits.ts";
import type { Valve } from "../section.ts";
import { may, needs, number, oneOf, text } from "../shape/check.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";
import { onPipe, referToPipe } from "./onPipe.ts";

export const valve: Kind<Valve> = {
  called: "a valve",
  fields: {
    id: needs(id),
    kind: needs(oneOf("valve")),
    label: may(text),
    type: may(oneOf("ball", "gate")),
    on: needs(onPipe),
    open: may(number(ranges.share)),
    role: may(oneOf("throttle", "flush")),
  },
  refer: referToPipe,
};
