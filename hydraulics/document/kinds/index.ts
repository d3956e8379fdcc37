/** The kinds of part, each with its fields and rules. A new kind is a file and a line here. */
import type { Part, PartKind } from "../section.ts";
import { checkValve } from "./checkValve.ts";
import type { Kind } from "./kind.ts";
import { note } from "./note.ts";
import { pipe } from "./pipe.ts";
import { pond } from "./pond.ts";
import { pump } from "./pump.ts";
import { spillway } from "./spillway.ts";
import { valve } from "./valve.ts";
import { vent } from "./vent.ts";
import { vessel } from "./vessel.ts";

export const kinds: { readonly [K in PartKind]: Kind<Extract<Part, { kind: K }>> } = {
  pond,
  vessel,
  pump,
  pipe,
  valve,
  checkValve,
  vent,
  spillway,
  note,
};
