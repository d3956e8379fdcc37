/** What a pipe loses beside its friction, item by item, as the network lays it out (`network/pipeModel.ts`) and named
 * for people: each K bears V²/2g of this pipe. For the slip that shows where a figure comes from. */
import { isStuckOpen, valveType } from "../document/defaults.ts";
import type { FittingType, Pipe, Section } from "../document/section.ts";
import { entranceK, exitK } from "../formulas/fittingK.ts";
import { must } from "../must.ts";
import type { Bears, PipeEndModel } from "../network/network.ts";
import { layOut } from "../network/pipeModel.ts";

export interface LossItem {
  readonly what: string;
  readonly count: number;
  /** of one of them */
  readonly k: number;
}

export const fittingNames: Readonly<Record<FittingType, string>> = {
  elbow90: "elbow 90°",
  elbow45: "elbow 45°",
  swept90: "swept bend 90°",
  teeRun: "tee, straight through",
  teeBranch: "tee, by the branch",
  strainer: "strainer",
  other: "other fitting",
};

const kinds: readonly Bears["what"][] = ["fitting", "bend", "valve", "checkValve", "teeRun", "teeBranch", "bore"];

/** Its entrance, then by kinds what is listed, bends, valves, tees and changes of bore, then its exit.
 * @param forward whether it runs as drawn */
export function lossesOf(section: Section, pipe: Pipe, forward: boolean): readonly LossItem[] {
  const laid = layOut(section, new Set(), new Set()).pipes.get(pipe.id);
  must(laid, `${pipe.id} is a pipe of this drawing`);
  const [first, last] = forward ? [laid.from, laid.to] : [laid.to, laid.from];
  const borne = kinds.flatMap((kind) => laid.bears.filter(({ what }) => what === kind));
  return joined([...entrance(first), ...borne.map((item) => named(item, forward)), ...exit(last)]);
}

function named(item: Bears, forward: boolean): LossItem {
  const k = (forward ? item.kForward : item.kBackward) / item.count;
  return { what: nameOf(item, forward), count: item.count, k };
}

function nameOf({ what, fitting, turn, valve, at }: Bears, forward: boolean): string {
  switch (what) {
    case "fitting":
      return fittingNames[fitting ?? "other"];
    case "bend":
      return `bend ${Math.round(turn ?? 0)}°`;
    case "valve":
      return valve?.kind === "valve" ? `${valveType(valve)} valve` : "valve";
    case "checkValve":
      return valve?.kind === "checkValve" && isStuckOpen(valve) ? "check valve, stuck open" : "check valve";
    case "teeRun":
      return "tee, straight through";
    case "teeBranch":
      return "tee, by the branch";
    case "bore":
      // The narrower pipe bears it: out of its end the water widens.
      return at > 0 === forward ? "sudden widening" : "sudden narrowing";
  }
}

function joined(items: readonly LossItem[]): readonly LossItem[] {
  const all = new Map<string, LossItem>();
  for (const item of items) {
    if (item.k === 0 || item.count === 0) continue;
    const key = `${item.what} ${item.k.toPrecision(9)}`;
    all.set(key, { ...item, count: item.count + (all.get(key)?.count ?? 0) });
  }
  return [...all.values()];
}

function entrance(end: PipeEndModel): readonly LossItem[] {
  if (end.kind !== "body") return [];
  const { mouth } = end.opening;
  return [{ what: mouth === "side" ? "entrance, flush" : "entrance, projecting", count: 1, k: entranceK(mouth) }];
}

const exit = (end: PipeEndModel): readonly LossItem[] =>
  end.kind === "body" || end.kind === "air" ? [{ what: "exit", count: 1, k: exitK }] : [];
