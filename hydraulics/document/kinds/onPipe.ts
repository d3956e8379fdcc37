import { ranges } from "../limits.ts";
import type { OnPipe, PartId } from "../section.ts";
import { needs, number, object } from "../shape/check.ts";
import { inside, type Place } from "../shape/place.ts";
import type { Problems } from "../shape/problems.ts";
import { id } from "./id.ts";
import type { Names } from "./names.ts";

/** A place on a pipe. That it lies within the pipe's length is seen in `layout.ts`. */
export const onPipe = object<OnPipe>("a place on a pipe", { pipe: needs(id), at: needs(number(ranges.at)) });

export function referToPipe(part: { on: { pipe: PartId } }, at: Place, names: Names, problems: Problems): void {
  names.expect(part.on.pipe, ["pipe"], inside(inside(at, "on"), "pipe"), problems);
}
