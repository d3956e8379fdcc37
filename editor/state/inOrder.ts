import { type Body, isBody, type Part, type PartId, type Section } from "../../hydraulics/index.ts";

/** The parts in the file's order. */
export const inOrder = (section: Section): readonly Part[] =>
  [...section.parts.values()].sort((a, b) => a.rank - b.rank);

export function bodyOf(section: Section, id: PartId | undefined): Body | undefined {
  const part = id === undefined ? undefined : section.parts.get(id);
  return isBody(part) ? part : undefined;
}

export const bodiesOf = (section: Section): readonly Body[] => inOrder(section).filter(isBody);
