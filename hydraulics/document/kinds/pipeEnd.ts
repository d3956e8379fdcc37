import { ranges } from "../limits.ts";
import type { PipeEnd } from "../section.ts";
import { type Check, isObject, may, needs, number, object, oneOf } from "../shape/check.ts";
import { id } from "./id.ts";

const atPart = object<Extract<PipeEnd, { part: unknown }>>("an end on a body or a pump", {
  part: needs(id),
  x: may(number(ranges.x)),
  z: may(number(ranges.level)),
  mouth: may(oneOf("side", "down", "up")),
});

const atTee = object<Extract<PipeEnd, { pipe: unknown }>>("a tee into a pipe", {
  pipe: needs(id),
  at: needs(number(ranges.at)),
});

const isTrue: Check<true> = (value, at, problems) => {
  if (value === true) return true;
  problems.add(at, "true (an end in the air over the ground)", value);
  return undefined;
};
const inAir = object<Extract<PipeEnd, { open: true }>>("an end in the air", {
  open: needs(isTrue),
  x: needs(number(ranges.x)),
  z: needs(number(ranges.level)),
});

/** An end says what it is by the one of `part`, `pipe` and `open` that it has. What an end at a part must say
 * besides hangs on the part, which `pipe.ts` looks up. */
export const pipeEnd: Check<PipeEnd> = (value, at, problems) => {
  const said = isObject(value) ? ["part", "pipe", "open"].filter((name) => Object.hasOwn(value, name)) : [];
  if (said.length !== 1) {
    const expected = 'an end with one of "part" (a body or a pump), "pipe" (a tee) and "open" (in the air)';
    if (said.length > 1) problems.addWords(at, expected, said.map((name) => `"${name}"`).join(" and "));
    else problems.add(at, expected, value);
    return undefined;
  }
  if (said[0] === "part") return atPart(value, at, problems);
  return said[0] === "pipe" ? atTee(value, at, problems) : inAir(value, at, problems);
};
