import type { PartId, Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { setField } from "./setField.ts";

/** The maker's points of a pump, from the least flow on, in place of the two figures on its box. */
export function setCurve(
  section: Section,
  id: PartId,
  label: string,
  curve: readonly (readonly [flow: number, head: number])[],
): Changed {
  const pump = section.parts.get(id);
  return setField(section, [id], pump ? `${label} of ${partName(pump)}` : label, (part) => {
    if (part.kind !== "pump") return;
    part.curve = curve.map(([flow, head]) => [flow, head]);
    delete part.maxFlow;
    delete part.maxHead;
  });
}
