import { ranges } from "../limits.ts";
import type { CheckValve } from "../section.ts";
import { may, needs, number, oneOf, text, yesOrNo } from "../shape/check.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";
import { onPipe, referToPipe } from "./onPipe.ts";

export const checkValve: Kind<CheckValve> = {
  called: "a check valve",
  fields: {
    id: needs(id),
    kind: needs(oneOf("checkValve")),
    label: may(text),
    on: needs(onPipe),
    stuckOpen: may(yesOrNo),
    openingHead: may(number(ranges.openingHead)),
  },
  refer: referToPipe,
};
