/** What a drawing still lacks: bodies, a pump, joints, mouths inside their bodies. */
import { bottomOf, wallsAt } from "../document/geometry.ts";
import { listed } from "../document/listed.ts";
import type { Body, PartId, PartKind, Point } from "../document/section.ts";
import type { PipeEndModel } from "../network/network.ts";
import { tiedGroups } from "../network/tied.ts";
import { levelWords } from "../powerCut/words.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Looked, Rule } from "./rule.ts";
import { called, listWords } from "./words.ts";

/** A sheet on which nothing is drawn yet lacks nothing that would have to be said. */
export const nothingToSolve: Rule = ({ section }) => {
  if (section.parts.size === 0) return [];
  const kinds = new Set<PartKind>([...section.parts.values()].map(({ kind }) => kind));
  const wanted: readonly PartKind[] = ["pond", "vessel", "pump"];
  const missing = wanted.filter((kind) => !kinds.has(kind)).map((kind) => `no ${kind}`);
  if (missing.length === 0) return [];
  const words = listed(missing);
  return [
    {
      code: "nothing-to-solve",
      severity: "advice",
      parts: [],
      text: `There is ${words} on the drawing: it is solved as far as it can be.`,
      remedy: `Place ${missing.map((each) => each.replace("no ", "a ")).join(", ")}.`,
      figures: { missing: missing.length },
    },
  ];
};

/** Pipes whose group ends in no body, pumps without water or without a pipe. */
export const looseParts: Rule = ({ section, running, state }) => {
  const { pipes, pumps } = state.network;
  const wet = tiedGroups(state.network);
  const joined = new Set<PartId>();
  for (const pipe of pipes.values()) if (pipe.from.kind === "pump") joined.add(pipe.from.pump);
  const found: Finding[] = [];
  const untied = [...pipes.values()].filter(({ group }) => !wet.has(group));
  const turning = new Set(
    running.converged
      ? untied
          .filter(({ stretches }) => stretches.some(({ link }) => Math.abs(link.Q) > atRest))
          .map(({ group }) => group)
      : [],
  );
  const ring = untied.filter(({ group }) => turning.has(group)).map(({ pipe }) => pipe.id);
  if (ring.length > 0) {
    found.push(
      loose(
        ring,
        `${listWords(section, ring)} ${ring.length > 1 ? "end" : "ends"} in no pond or vessel: water only turns round in a closed ring, and its pressure, which hangs on how it was filled, is not shown.`,
        "Lead an end into a pond or a vessel, or take it away.",
      ),
    );
  }
  const dry = untied.filter(({ group }) => !turning.has(group)).map(({ pipe }) => pipe.id);
  if (dry.length > 0) {
    found.push(
      loose(
        dry,
        `${listWords(section, dry)} ${dry.length > 1 ? "end" : "ends"} in no water: no water runs there.`,
        "Lead an end into a pond or a vessel, or take it away.",
      ),
    );
  }
  for (const { pump, loose: unfed } of pumps.values()) {
    const name = called(section, pump.id);
    if (unfed)
      found.push(
        loose(
          [pump.id],
          `${name} stands in no water, and no pipe leads to it: it has nothing to lift.`,
          "Set it into a pond or a vessel, or lead a suction line to it.",
        ),
      );
    else if (!joined.has(pump.id))
      found.push(
        loose(
          [pump.id],
          `${name} has no pipe at its outlet: it lifts nothing anywhere.`,
          "Pull a pipe from its outlet to a vessel or a pond.",
        ),
      );
  }
  return found;
};

const loose = (parts: readonly PartId[], text: string, remedy: string): Finding => ({
  code: "loose-parts",
  severity: "advice",
  parts,
  text,
  remedy,
  figures: { parts: parts.length },
});

/** m that a mouth may lie off and still count as in place */
const slack = 1e-6;

const ofEnd = { does: "open into", what: "its end" };
const ofPump = { does: "draw from", what: "it" };

export const mouthOutsideBody: Rule = (looked) => {
  const { section, state } = looked;
  const found: Finding[] = [];
  const offer = (part: PartId, body: PartId, place: Point, side: boolean, of = ofEnd) => {
    const said = outsideOf(looked, body, place, side);
    if (said) {
      found.push({
        code: "mouth-outside-body",
        severity: "advice",
        parts: [part, body],
        text: `${called(section, part)} is said to ${of.does} ${called(section, body)}, but lies ${said}.`,
        remedy: `Move ${of.what} into the body that it is to ${of.does}.`,
        figures: { x: place[0], level: place[1] },
      });
    }
  };
  for (const { pipe, from, to } of state.network.pipes.values()) {
    for (const end of [from, to]) if (end.kind === "body") offer(pipe.id, end.opening.body, end.place, isSide(end));
  }
  for (const { pump } of state.network.pumps.values())
    if (pump.in !== undefined) offer(pump.id, pump.in, [pump.x, pump.z], false, ofPump);
  return found;
};

const isSide = (end: Extract<PipeEndModel, { kind: "body" }>): boolean => end.opening.mouth === "side";

/** Over the rim is no fault: an end above the water is an air gap. */
function outsideOf({ state }: Looked, id: PartId, [x, z]: Point, side: boolean): string | null {
  const body: Body | undefined = state.network.bodies.get(id)?.body;
  if (!body) return null;
  const bottom = bottomOf(body);
  if (z < bottom - slack)
    return `at ${levelWords(z)}, below its ${body.kind === "pond" ? "bed" : "base"} at ${levelWords(bottom)}`;
  const [left, right] = wallsAt(body, z);
  if (!side && (x < left - slack || x > right + slack))
    return `${(x < left ? left - x : x - right).toFixed(2)} m ${x < left ? "left" : "right"} of its wall`;
  return null;
}
