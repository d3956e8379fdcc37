/** The fields of every kind of part. */
import type { Part, PartKind } from "../../../hydraulics/index.ts";
import type { Field } from "./field.ts";
import { checkValveFields, valveFields, ventFields } from "./onPipe.ts";
import { noteFields, spillwayFields } from "./others.ts";
import { pipeFields } from "./pipe.ts";
import { pondFields } from "./pond.ts";
import { pumpFields } from "./pump.ts";
import { vesselFields } from "./vessel.ts";

/** A list is only ever used for the kind it is listed under; the table can not say that in types. */
type AnyField = Field<Part>;
const any = (fields: unknown): readonly AnyField[] => fields as readonly AnyField[];

export const fieldsOf: Record<PartKind, readonly AnyField[]> = {
  pond: any(pondFields),
  vessel: any(vesselFields),
  pump: any(pumpFields),
  pipe: any(pipeFields),
  valve: any(valveFields),
  checkValve: any(checkValveFields),
  vent: any(ventFields),
  spillway: any(spillwayFields),
  note: any(noteFields),
};
