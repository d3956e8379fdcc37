import { foot, type Pipe, type RunningState, type Section } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import { sentenceIn } from "../../sheet/sentence.ts";
import { showQuantity } from "../quantity.ts";
import { controlWord } from "./controlWord.ts";
import { figure, type Given, line, noReadings, type Readings, whole } from "./reading.ts";

export function pipeReadings({ section, running, part, units }: Given<"pipe">): Readings {
  const r = running.pipes.get(part.id);
  if (!r) return noReadings;
  const metre = units === "metric" ? 1 : foot;
  const lines = [
    line("Flow", showQuantity("flow", r.flow, units)),
    line("Velocity", showQuantity("velocity", r.velocity, units)),
    line(`Friction over ${showQuantity("length", r.length, units)}`, showQuantity("head", r.frictionLoss, units)),
    line("Bends, fittings and ends", showQuantity("head", r.fittingLoss, units)),
    line(units === "metric" ? "Loss per metre" : "Loss per foot", showQuantity("head", r.lossPerMetre * metre, units)),
    line("By the other formula", showQuantity("head", r.otherFormulaLoss, units)),
  ];
  if (r.lowestPressureHead !== null)
    lines.push(line("Lowest pressure", showQuantity("head", r.lowestPressureHead, units)));
  if (r.highestPressureHead !== null)
    lines.push(line("Highest pressure", showQuantity("head", r.highestPressureHead, units)));
  if (r.fillRatio !== null) lines.push(line("Runs filled to", `${whole(r.fillRatio * 100)} % of its bore`));
  if (r.froude !== null) lines.push(line("Froude number", `${figure(r.froude, 2)}, ${airWord(r.froude)}`));
  if (r.runs === "gravity" && r.control !== "none") lines.push(line("Controlled at", controlWord(r.control)));
  const pump = r.flow === 0 ? null : pumpOf(section, running, part);
  if (pump)
    lines.push(
      line(`Share of the head of ${pump.name}`, `${figure((100 * (r.frictionLoss + r.fittingLoss)) / pump.head, 2)} %`),
    );
  return {
    aside: r.flow === 0 ? "no flow" : `${r.regime}, Re ${whole(Number(Math.abs(r.reynolds).toPrecision(3)))}`,
    lines,
    notes: r.outsideRange.map((reason) => sentenceIn(reason, units, [])),
  };
}

/** The pump that the pipe leads from or to, else the only one that lifts; of a gravity pipe none. */
function pumpOf(
  section: Section,
  running: RunningState,
  pipe: Pipe,
): { readonly name: string; readonly head: number } | null {
  if (running.pipes.get(pipe.id)?.runs !== "full") return null;
  const lifting = [...running.pumps].filter(([, { flow, head }]) => flow > 0 && head > 0);
  const ends = [pipe.from, pipe.to].flatMap((end) => ("part" in end ? [end.part] : []));
  const own = lifting.find(([id]) => ends.includes(id)) ?? (lifting.length === 1 ? lifting[0] : undefined);
  return own ? { name: partNameById(section, own[0]), head: own[1].head } : null;
}

const airWord = (froude: number): string =>
  froude < 0.3 ? "vents itself" : froude < 1 ? "gulps and surges" : "carries its air along";
