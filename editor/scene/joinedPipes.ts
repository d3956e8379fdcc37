/** Pipes in groups that tee into each other. */
import type { PartId, Pipe } from "../../hydraulics/index.ts";

export function joinedPipes(pipes: readonly Pipe[]): readonly (readonly Pipe[])[] {
  const head = new Map<PartId, PartId>(pipes.map((pipe) => [pipe.id, pipe.id]));
  const find = (id: PartId): PartId => {
    let at = id;
    while (head.get(at) !== at) at = head.get(at) as PartId;
    head.set(id, at);
    return at;
  };
  for (const pipe of pipes)
    for (const end of [pipe.from, pipe.to])
      if ("pipe" in end && head.has(end.pipe)) head.set(find(pipe.id), find(end.pipe));
  const groups = new Map<PartId, Pipe[]>();
  for (const pipe of pipes) {
    const group = groups.get(find(pipe.id));
    if (group) group.push(pipe);
    else groups.set(find(pipe.id), [pipe]);
  }
  return [...groups.values()];
}
