/** A pump beside the water and its suction line set under the water,
 * or the suction line's bare mouth lowered into it. */
import { pipeLine } from "../document/geometry.ts";
import type { PartId, Pipe, PipeEnd, Point, Section } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";
import { downToMm } from "./rounding.ts";

/** m under the water */
const under = 0.1;
/** of the water's depth over the bed, for a mouth */
const share = 0.4;

export const lowerPump: Remedy = function* ({ section, finding }) {
  const [pumpId, pipeId] = finding.parts;
  const pump = pumpId === undefined ? undefined : section.parts.get(pumpId);
  const { level } = finding.figures;
  if (pump?.kind !== "pump" || level === undefined) return;
  const top = downToMm(level - under);
  const suction = suctionOf(section, pipeId);
  if (!suction || pump.z <= top) return;
  const lowered = withPart(section, { ...pump, z: top });
  const route = (suction.route ?? []).map(([x, z]): Point => [x, Math.min(z, top)]);
  yield {
    label: `Set ${called(section, pump.id)} and its suction line to ${levelWords(top)}, under the water`,
    section: relaid(lowered, suction, { route }),
  };
};

export const lowerSuctionMouth: Remedy = function* ({ section, finding }) {
  const suction = suctionOf(section, finding.parts[1]);
  if (!suction || !("part" in suction.from)) return;
  const body = section.parts.get(suction.from.part);
  if (body?.kind !== "pond") return;
  const z = downToMm(body.bedLevel + share * (body.waterLevel - body.bedLevel));
  const mouth = pipeLine(section, suction)[0];
  if (!mouth || z >= mouth[1]) return;
  const from: PipeEnd = { ...suction.from, x: mouth[0], z, mouth: "down" };
  yield {
    label: `Lower the mouth of ${called(section, suction.id)} to ${levelWords(z)}`,
    section: relaid(section, suction, { route: [...(suction.route ?? [])], from }),
  };
};

function suctionOf(section: Section, id: PartId | undefined): Pipe | null {
  const pipe = id === undefined ? undefined : section.parts.get(id);
  return pipe?.kind === "pipe" ? pipe : null;
}
