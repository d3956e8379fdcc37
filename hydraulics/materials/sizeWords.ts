/** How sizes are named on the list. */
import type { PartId, Pipe, Section } from "../document/section.ts";

export const mm = (metres: number): string => `${Number((metres * 1000).toFixed(1))} mm`;

/** As it is sold, else by its bore. */
export const sizeOf = (pipe: Pipe): string => pipe.nominal ?? `bore ${mm(pipe.bore)}`;

/** Of the pipe that a device sits on. */
export const sizeOn = (section: Section, id: PartId): string => {
  const pipe = section.parts.get(id);
  return pipe?.kind === "pipe" ? sizeOf(pipe) : "";
};
