/** A line that is drawn in several pipes, joint by joint, as one: what concerns its whole route (which way its water
 * falls) does not hang on where it is drawn in two. A joint of three pipes or more ends a chain, as a tee does. */
import type { PartId, Point } from "../document/section.ts";
import type { Network, PipeModel } from "./network.ts";
import { carriedOnAlone, type Entered, turned } from "./onward.ts";
import { samePlace } from "./pipeModel.ts";

export interface Chain {
  readonly links: readonly ChainLink[];
  readonly line: readonly Point[];
  readonly drawn: number;
  /** its first and its last end, each with the pipe that has it */
  readonly from: Entered;
  readonly to: Entered;
}

interface ChainLink {
  readonly pipe: PipeModel;
  /** m along the chain at which it begins */
  readonly start: number;
  /** whether it is drawn the way the chain goes */
  readonly along: boolean;
}

/** m along the chain of a place on one of its pipes */
export const placeOn = ({ pipe, start, along }: ChainLink, at: number): number =>
  start + (along ? at : pipe.drawn - at);

/** Every pipe in one chain; in the pipes' order, and drawn as the first of its pipes. */
export function chainsOf(network: Pick<Network, "pipes">): readonly Chain[] {
  const seen = new Set<PartId>();
  return [...network.pipes.values()].flatMap((pipe): Chain[] => {
    if (seen.has(pipe.pipe.id)) return [];
    const before = followed(network, { pipe, side: "to" }, seen).slice(1).reverse().map(turned);
    const after = followed(network, { pipe, side: "from" }, seen);
    return [chainOf([...before, ...after])];
  });
}

/** A pipe with all that alone carries it on, either way: the pieces of one line, itself among them. */
export function piecesOf(network: Pick<Network, "pipes">, pipe: PipeModel): readonly PipeModel[] {
  const seen = new Set<PartId>();
  const before = followed(network, { pipe, side: "to" }, seen).slice(1);
  return [...before.reverse(), ...followed(network, { pipe, side: "from" }, seen)].map((piece) => piece.pipe);
}

/** Whether something shuts the line that a pipe is of, on whichever piece. */
export const isLineShut = (network: Pick<Network, "pipes">, pipe: PipeModel): boolean =>
  piecesOf(network, pipe).some(({ shutAt }) => shutAt.length > 0);

/** The end that a pipe leads to, entered by one of its ends: its own other one, or that of the last piece of its line. */
export const leadsTo = (network: Pick<Network, "pipes">, entered: Entered): Entered =>
  turned(followed(network, entered, new Set()).at(-1) ?? entered);

/** From a pipe, entered by one of its ends, on over joints of two. */
function followed(network: Pick<Network, "pipes">, first: Entered, seen: Set<PartId>): readonly Entered[] {
  const found = [first];
  seen.add(first.pipe.pipe.id);
  for (let next = onlyNext(network, first); next && !seen.has(next.pipe.pipe.id); next = onlyNext(network, next)) {
    seen.add(next.pipe.pipe.id);
    found.push(next);
  }
  return found;
}

const onlyNext = (network: Pick<Network, "pipes">, entered: Entered): Entered | undefined =>
  carriedOnAlone(network, turned(entered));

function chainOf(run: readonly Entered[]): Chain {
  const links: ChainLink[] = [];
  const line: Point[] = [];
  let start = 0;
  for (const { pipe, side } of run) {
    const along = side === "from";
    links.push({ pipe, start, along });
    const points = along ? pipe.line : pipe.line.toReversed();
    const last = line.at(-1);
    const meets = last && points[0] && Math.hypot(last[0] - points[0][0], last[1] - points[0][1]) < samePlace;
    line.push(...(meets ? points.slice(1) : points));
    start += pipe.drawn;
  }
  const [first, last] = [run[0] as Entered, run.at(-1) as Entered];
  return { links, line, drawn: start, from: first, to: turned(last) };
}
