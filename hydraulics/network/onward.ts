/** What carries a pipe on past its ends: the pipes joined to an end that is drawn open (`document/joints.ts`). */
import type { JoinedEnd } from "../document/joints.ts";
import type { PartId } from "../document/section.ts";
import type { Network, PipeEndModel, PipeModel, StretchModel } from "./network.ts";
import { crestOf, type LaidPipe, samePlace } from "./pipeModel.ts";

export interface Entered<P extends LaidPipe = PipeModel> {
  readonly pipe: P;
  /** the end of it that lies at the joint */
  readonly side: "from" | "to";
}

/** The same pipe, by its other end. */
export const turned = ({ pipe, side }: Entered): Entered => ({ pipe, side: side === "from" ? "to" : "from" });

/** The stretch at the end; undefined where the pipe runs part full. */
export const stretchAt = ({ pipe, side }: Entered): StretchModel | undefined =>
  side === "from" ? pipe.stretches[0] : pipe.stretches.at(-1);

/** The pipes that meet a pipe at the joint at its end; none where that end is no joint. */
export function carriedOn<P extends LaidPipe>(
  { pipes }: { readonly pipes: ReadonlyMap<PartId, P> },
  { pipe, side }: Entered<P>,
): readonly Entered<P>[] {
  const end = pipe[side];
  // A branch ends at its main's side: what is joined to its other end does not carry it on here.
  if (end.kind === "tee" && !end.joint) return [];
  const bearer = end.kind === "tee" ? pipes.get(end.pipe) : pipe;
  const at = end.kind === "tee" ? (end.at < samePlace ? "from" : "to") : side;
  const joint = bearer?.[at];
  if (!bearer || joint?.kind !== "joint") return [];
  const ends: readonly JoinedEnd[] = [{ pipe: bearer.pipe.id, side: at }, ...joint.joins];
  return ends.flatMap((each) => {
    const other = pipes.get(each.pipe);
    return other && other !== pipe ? [{ pipe: other, side: each.side }] : [];
  });
}

/** The pipe that alone carries one on there; undefined where none or several do. */
export function carriedOnAlone<P extends LaidPipe>(
  network: { readonly pipes: ReadonlyMap<PartId, P> },
  end: Entered<P>,
): Entered<P> | undefined {
  const next = carriedOn(network, end);
  return next.length === 1 ? next[0] : undefined;
}

/** A pipe with what carries it on past one of its ends, joint by joint: each pipe once, itself first, each with the end
 * by which it is entered. */
export function runFrom(network: Pick<Network, "pipes">, first: Entered): readonly Entered[] {
  const run: Entered[] = [first];
  const seen = new Set<PartId>([first.pipe.pipe.id]);
  // An array takes what is added while it is walked.
  for (const entered of run) {
    for (const next of carriedOn(network, turned(entered))) {
      if (seen.has(next.pipe.pipe.id)) continue;
      seen.add(next.pipe.pipe.id);
      run.push(next);
    }
  }
  return run;
}

/** m: the highest level that its axis comes to */
export const crestOfRun = (run: readonly Entered[]): number => Math.max(...run.map(({ pipe }) => crestOf(pipe)));

/** The ends to which a run leads. */
export const endsOf = (run: readonly Entered[]): readonly PipeEndModel[] =>
  run
    .map(turned)
    .map(({ pipe, side }) => pipe[side])
    .filter(({ kind }) => kind !== "joint");
