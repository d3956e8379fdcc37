/** A run in time that the strip shows and the drawing follows: the power cut, a start, or one fault. */
import type {
  CutEvent,
  CutHistory,
  FaultResult,
  Outcome,
  PartId,
  PowerCut,
  StartUp,
  Verdict,
} from "../../hydraulics/index.ts";
import type { Role } from "./node.ts";

export interface PlayedRun {
  readonly title: string;
  /** in the title's place on a narrow sheet */
  readonly short?: string;
  /** beside the title, whole or not at all */
  readonly says: string;
  readonly saysIn: Role;
  /** what the time is counted from, after "after" */
  readonly since: string;
  readonly duration: number;
  readonly history: CutHistory;
  readonly events: readonly CutEvent[];
  readonly pumpsStop: boolean;
  /** the drawing is shown as it stands in this fault, and judged by it */
  readonly fault?: FaultResult;
  /** how each body ends, for the end of its curve */
  readonly ends: ReadonlyMap<PartId, End>;
}

export interface End {
  /** between the body's name and its level */
  readonly word: string;
  readonly level: number;
  readonly curve: Role;
}

export const cutPlayed = (cut: PowerCut): PlayedRun => ({
  title: "If the power fails",
  says: "levels after the pump stops",
  saysIn: "soft",
  since: "the power failed",
  duration: cut.duration,
  history: cut.history,
  events: cut.events,
  pumpsStop: true,
  ends: new Map<PartId, End>([
    ...[...cut.vessels].map(([id, { verdict, finalLevel }]) => [id, vesselEnd(verdict, finalLevel)] as const),
    ...[...cut.ponds].map(([id, { overflows, finalLevel }]) => [id, pondEnd(overflows, finalLevel)] as const),
  ]),
});

const vesselEnd = (verdict: Verdict, level: number): End =>
  verdict === "drains"
    ? { word: "drains, to", level, curve: "drains" }
    : { word: "comes to rest at", level, curve: "waterline" };

const pondEnd = (overflows: boolean, level: number): End => ({
  word: overflows ? "overflows, ends at" : "ends at",
  level,
  curve: overflows ? "drains" : "ink",
});

export type Start = "startUp" | "restart";

const startWords: Readonly<Record<Start, Pick<PlayedRun, "title" | "short" | "says" | "since">>> = {
  startUp: { title: "At the first start", says: "every vessel empty, the pond as drawn", since: "the first start" },
  restart: {
    title: "When the power comes back",
    short: "Power back",
    says: "from where the power cut left the water",
    since: "the power came back",
  },
};

export const startPlayed = (which: Start, run: StartUp): PlayedRun => ({
  ...startWords[which],
  saysIn: "soft",
  duration: run.duration,
  history: run.history,
  events: run.events,
  pumpsStop: false,
  ends: new Map<PartId, End>([
    ...[...run.vessels].map(([id, { overtops, finalLevel }]) => {
      const end: End = overtops
        ? { word: "runs over, ends at", level: finalLevel, curve: "drains" }
        : { word: "stands at", level: finalLevel, curve: "waterline" };
      return [id, end] as const;
    }),
    ...[...run.ponds].map(([id, pond]) => [id, pondEnd(pond.overflowVolume > 1e-6, pond.finalLevel)] as const),
  ]),
});

const outcomeRoles: Readonly<Record<Outcome, Role>> = {
  harmless: "held",
  nuisance: "part",
  "water lost": "drains",
  "fish at risk": "drains",
};

export const faultPlayed = (fault: FaultResult): PlayedRun => ({
  title: `Fault: ${fault.title}`,
  short: `${fault.outcome.replace(/^./, (c) => c.toUpperCase())}: ${fault.title}`,
  says: `${fault.outcome}. ${fault.reason}`,
  saysIn: outcomeRoles[fault.outcome],
  since: fault.pumpsStop ? "the power failed" : "the fault came",
  duration: fault.duration,
  history: fault.history,
  events: fault.events,
  pumpsStop: fault.pumpsStop,
  fault,
  ends: new Map(
    [...fault.history.levels].map(([id, levels]): [PartId, End] => {
      const level = levels.at(-1) ?? 0;
      if (fault.drained.includes(id)) return [id, { word: "drains, to", level, curve: "drains" }];
      return [id, { word: "ends at", level, curve: fault.vesselLeft.has(id) ? "waterline" : "ink" }];
    }),
  ),
});
