/** The table of part kinds. */
import type { Part } from "../../hydraulics/index.ts";
import { checkValveDrawing } from "./checkValve.ts";
import { noteDrawing } from "./note.ts";
import type { PartDrawing } from "./part.ts";
import { pipeDrawing } from "./pipe.ts";
import { pondDrawing } from "./pond.ts";
import { pumpDrawing } from "./pump.ts";
import { spillwayDrawing } from "./spillway.ts";
import { valveDrawing } from "./valve.ts";
import { ventDrawing } from "./vent.ts";
import { vesselDrawing } from "./vessel.ts";

type Table = { readonly [K in Part["kind"]]: PartDrawing<Extract<Part, { kind: K }>> };

const table: Table = {
  pond: pondDrawing,
  vessel: vesselDrawing,
  pump: pumpDrawing,
  pipe: pipeDrawing,
  valve: valveDrawing,
  checkValve: checkValveDrawing,
  vent: ventDrawing,
  spillway: spillwayDrawing,
  note: noteDrawing,
};

/** A kind's drawing takes that kind alone, which the table sees to. */
export const drawingOfKind = <P extends Part>(part: P): PartDrawing<P> => table[part.kind] as unknown as PartDrawing<P>;
