/** What each part is, in a line of the parts list. Notes stand on the drawing itself. */
import {
  drawnWidth,
  isStuckOpen,
  lineLength,
  type Part,
  type PartId,
  pipeLine,
  pumpSpeed,
  valveOpen,
  valveRole,
  valveType,
  ventOpen,
} from "../../hydraulics/index.ts";
import { type Drawing, nameOf } from "../scene/drawing.ts";
import { sizeText } from "../scene/pipe.ts";
import {
  formatBore,
  formatDimension,
  formatFlow,
  formatHead,
  formatLength,
  formatLevel,
  formatMass,
  formatPower,
  formatVolume,
} from "../sheet/units.ts";

export interface ListedPart {
  readonly number: number;
  readonly name: string;
  readonly what: string;
}

/** Numbers by the file's order, from 1. */
export function partNumbers(parts: Iterable<Part>): ReadonlyMap<PartId, number> {
  const listed = [...parts].filter((part) => part.kind !== "note").sort((a, b) => a.rank - b.rank);
  return new Map(listed.map((part, i) => [part.id, i + 1]));
}

export function partsList(drawing: Drawing, numbers: ReadonlyMap<PartId, number>): readonly ListedPart[] {
  return drawing.parts.flatMap((part) => {
    const number = numbers.get(part.id);
    return number === undefined ? [] : [{ number, name: nameOf(part), what: whatOf(drawing, part) }];
  });
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const joined = (...words: readonly (string | null | undefined | false)[]): string => words.filter(Boolean).join(", ");

function whatOf(drawing: Drawing, part: Part): string {
  const { section, running, system } = drawing;
  switch (part.kind) {
    case "pond": {
      const volume = running?.ponds.get(part.id)?.volume;
      const plan = `${formatLength(part.width, system)} × ${formatLength(part.length, system)}`;
      const deep = `${formatLength(part.waterLevel - part.bedLevel, system)} deep`;
      return joined(plan, deep, volume !== undefined && formatVolume(volume, system));
    }
    case "vessel": {
      const reading = running?.vessels.get(part.id);
      const high = formatLength(part.rimLevel - part.baseLevel, system);
      const plan =
        part.plan.shape === "round"
          ? `Ø ${formatLength(part.plan.diameter, system)}`
          : `${formatLength(drawnWidth(part), system)} × ${formatLength(part.plan.length, system)}`;
      return joined(reading && `${formatMass(reading.filledMass, system)} filled`, `${plan}, ${high} high`);
    }
    case "pump": {
      const reading = running?.pumps.get(part.id);
      const speed = pumpSpeed(part);
      return joined(
        part.watts !== undefined && formatPower(part.watts),
        reading && reading.flow > 0 && `${formatFlow(reading.flow, system)} at ${formatHead(reading.head, system)}`,
        speed !== 1 && (speed === 0 ? "off" : `${percent(speed)} speed`),
      );
    }
    case "pipe": {
      const length = running?.pipes.get(part.id)?.length ?? lineLength(pipeLine(section, part));
      return joined(sizeText(drawing, part), formatLength(length, system));
    }
    case "valve": {
      const open = valveOpen(part);
      const state = open === 0 ? "shut" : open === 1 ? "open" : `${percent(open)} open`;
      return joined(`${valveType(part)} valve to ${valveRole(part)}`, state);
    }
    case "checkValve":
      return joined("check valve", isStuckOpen(part) && "stuck open");
    case "vent": {
      const open = ventOpen(part);
      return joined(
        `bore ${formatBore(part.bore, system)}`,
        part.openEndZ === undefined ? "on the pipe itself" : `opens at ${formatLevel(part.openEndZ, system)}`,
        open !== 1 && (open === 0 ? "shut" : `${percent(open)} open`),
      );
    }
    case "spillway":
      return joined(`sill ${formatDimension(part.width, system)} wide`, `crest ${formatLevel(part.crestZ, system)}`);
    case "note":
      return "";
  }
}
