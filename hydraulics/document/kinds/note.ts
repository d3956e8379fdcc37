import { ranges } from "../limits.ts";
import type { Note } from "../section.ts";
import { may, needs, number, oneOf, text } from "../shape/check.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";

export const note: Kind<Note> = {
  called: "a note",
  fields: {
    id: needs(id),
    kind: needs(oneOf("note")),
    label: may(text),
    x: needs(number(ranges.x)),
    z: needs(number(ranges.level)),
    text: needs(text),
  },
};
