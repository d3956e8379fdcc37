/** The sheet's verdict in words: what the title block says first. The worst that is true of any vessel; where there
 * is nothing to judge, or no answer, that is said instead. */
import type { CutVessel, FaultResult, Outcome, PartId } from "../../hydraulics/index.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import { formatLevel } from "../sheet/units.ts";
import type { SceneInput } from "./build.ts";
import { type Drawing, nameById, nameOf } from "./drawing.ts";
import type { Role } from "./node.ts";
import { plainText } from "./plainText.ts";

export interface SheetVerdict {
  readonly words: string;
  readonly reason: string;
  readonly role: Extract<Role, "held" | "part" | "drains" | "soft">;
  /** full bar · bar with a gap, as of a hinge · bar that runs out downward · no bar */
  readonly bar: "full" | "hinge" | "runsOut" | "none";
}

/** Less than a whole drawing: what is spoken of it needs no paper. */
export type Judged = Pick<Drawing, "section" | "parts" | "findings" | "system"> & {
  readonly fault?: Drawing["fault"];
  readonly input: Pick<SceneInput, "running" | "powerCut" | "following">;
};

const none = (words: string, reason: string): SheetVerdict => ({ words, reason, role: "soft", bar: "none" });

export function verdictOf(drawing: Judged): SheetVerdict {
  const { running, powerCut } = drawing.input;
  const has = (kind: string): boolean => drawing.parts.some((part) => part.kind === kind);
  if (drawing.parts.length === 0)
    return none("An empty sheet", "Place a pond, a vessel and a pump, and join them by pipes.");
  if (!running) return none("Not solved yet", "Figures follow as soon as the solver has them.");
  if (!running.converged)
    return none("No answer found", `The solver did not settle${at(drawing, running.parts)}, so no figures are shown.`);
  if (!has("vessel"))
    return none("No filter vessel", "Without a vessel there is nothing that could drain when the pump stops.");
  const toJoin = notJoined(drawing);
  if (toJoin) return toJoin;
  if (drawing.fault) return judgedInFault(drawing, drawing.fault);
  if (!powerCut && drawing.input.following)
    return none(
      "Following the power cut",
      "The running state is known; what happens when the pump stops is being solved.",
    );
  if (!powerCut)
    return none("No power cut followed", "What happens when the pump stops is not known for this drawing.");
  if (powerCut.failedAt)
    return none("No answer for the power cut", `The solver did not settle${at(drawing, powerCut.failedAt)}.`);
  return judged(drawing, [...powerCut.vessels]);
}

/** A vessel that nothing leads to or from holds its water, and nobody wants to know: what comes next is said instead. */
function notJoined({ parts, input }: Judged): SheetVerdict | null {
  const vessel = parts.find((part) => part.kind === "vessel");
  const isVessel = (id: string): boolean => parts.some((part) => part.kind === "vessel" && part.id === id);
  const isJoined = parts.some((part) =>
    part.kind === "pipe"
      ? [part.from, part.to].some((end) => "part" in end && isVessel(end.part))
      : part.kind === "spillway" && (isVessel(part.from) || isVessel(part.to)),
  );
  const isFed = input.running?.converged && [...input.running.vessels.values()].some(({ inflow }) => inflow > 1e-7);
  if (!vessel || isJoined || isFed) return null;
  const name = nameOf(vessel);
  const pump = parts.find((part) => part.kind === "pump");
  return pump
    ? none("Not joined yet", `Pull a pipe from ${nameOf(pump)} to ${name}, and one from ${name} back to the pond.`)
    : none("No pump yet", `Place a pump in the pond, then pull a pipe from it to ${name}, and one from ${name} back.`);
}

function at({ section }: Judged, parts: readonly PartId[]): string {
  if (parts.length === 0) return "";
  const names = parts.slice(0, 3).map((id) => nameById(section, id));
  return ` at ${names.join(", ")}${parts.length > 3 ? " and others" : ""}`;
}

function judged(drawing: Judged, vessels: readonly (readonly [PartId, CutVessel])[]): SheetVerdict {
  const draining = vessels
    .filter(([, vessel]) => vessel.verdict === "drains")
    .sort(([, a], [, b]) => b.startLevel - b.finalLevel - (a.startLevel - a.finalLevel));
  const worst = draining[0];
  if (worst)
    return {
      words: `Drains, to ${formatLevel(worst[1].finalLevel, drawing.system)}`,
      reason: reasonOf(drawing, worst, vessels.length),
      role: "drains",
      bar: "runsOut",
    };
  const failure = drawing.findings.find((finding) => finding.severity === "failure");
  // Held when the pump stops, and still not in order: the failure goes first.
  if (failure) {
    const held = vessels.every(([, vessel]) => vessel.heldBy === "geometry") ? "geometry" : "a moving part";
    return {
      words: `Fails; held by ${held}`,
      reason: plainText(sentencesOf(drawing.section, drawing.system)(failure.text)),
      role: "drains",
      bar: "runsOut",
    };
  }
  const hinged = vessels.find(([, vessel]) => vessel.heldBy === "movingPart");
  if (hinged)
    return {
      words: "Holds its water, by a moving part",
      reason: reasonOf(drawing, hinged, vessels.length),
      role: "part",
      bar: "hinge",
    };
  const first = vessels[0];
  if (!first) return none("No filter vessel", "");
  return {
    words: "Holds its water, by geometry",
    reason: reasonOf(drawing, first, vessels.length),
    role: "held",
    bar: "full",
  };
}

const outcomes: Readonly<Record<Outcome, Omit<SheetVerdict, "reason">>> = {
  harmless: { words: "In this fault: harmless", role: "held", bar: "full" },
  nuisance: { words: "In this fault: a nuisance", role: "part", bar: "hinge" },
  "water lost": { words: "In this fault: water lost", role: "drains", bar: "runsOut" },
  "fish at risk": { words: "In this fault: fish at risk", role: "drains", bar: "runsOut" },
};

/** What the fault comes to, which is not what the drawing is worth: the words say so. */
function judgedInFault({ section, system }: Judged, { title, outcome, reason }: FaultResult): SheetVerdict {
  const says = sentencesOf(section, system);
  return {
    ...outcomes[outcome],
    reason: plainText(says(`${title}. ${reason}`)),
  };
}

/** With several vessels it says whose reason it is. */
function reasonOf({ section, system }: Judged, [id, vessel]: readonly [PartId, CutVessel], count: number): string {
  const reason = plainText(sentencesOf(section, system)(vessel.reason));
  return count > 1 && !reason.includes(nameById(section, id)) ? `${nameById(section, id)}: ${reason}` : reason;
}
