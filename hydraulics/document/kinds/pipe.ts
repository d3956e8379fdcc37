import { most, ranges } from "../limits.ts";
import type { FittingEntry, Pipe, PipeEnd } from "../section.ts";
import {
  type Check,
  list,
  may,
  needs,
  number,
  object,
  oneOf,
  pair,
  rangeWords,
  text,
  wholeNumber,
} from "../shape/check.ts";
import { inside, type Place } from "../shape/place.ts";
import type { Problems } from "../shape/problems.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";
import type { Names } from "./names.ts";
import { pipeEnd } from "./pipeEnd.ts";

const fittingFields = object<FittingEntry>("a fitting", {
  type: needs(oneOf("elbow90", "elbow45", "swept90", "teeRun", "teeBranch", "strainer", "other")),
  k: may(number(ranges.coefficient)),
  count: needs(wholeNumber(ranges.count)),
});

/** Only `other` bears its own coefficient: a bend with a k of its own would be a bend by name alone. */
const fitting: Check<FittingEntry> = (value, at, problems) => {
  const read = fittingFields(value, at, problems);
  if (!read) return undefined;
  if (read.type === "other" && read.k === undefined)
    problems.add(inside(at, "k"), rangeWords(ranges.coefficient), undefined);
  else if (read.type !== "other" && read.k !== undefined) {
    problems.add(inside(at, "k"), `no k, which only a fitting of type "other" has`, read.k);
  } else return read;
  return undefined;
};

const point = pair("a point, [x, z] in m", number(ranges.x), number(ranges.level));

export const pipe: Kind<Pipe> = {
  called: "a pipe",
  fields: {
    id: needs(id),
    kind: needs(oneOf("pipe")),
    label: may(text),
    from: needs(pipeEnd),
    to: needs(pipeEnd),
    route: may(list(point, { what: "points", min: 0, max: most.routePoints })),
    bore: needs(number(ranges.bore)),
    nominal: may(text),
    material: may(oneOf("pvc", "pe", "hose", "corrugated", "copper", "galvanised")),
    hazenWilliamsC: may(number(ranges.hazenWilliamsC)),
    roughness: may(number(ranges.roughness)),
    bends: may(oneOf("auto", "none")),
    extraLength: may(number(ranges.length)),
    fittings: may(list(fitting, { what: "fittings", min: 0, max: most.fittings })),
  },
  agree({ bore, roughness }, at, problems) {
    if (roughness === undefined || roughness <= bore) return;
    problems.addNumber(
      inside(at, "roughness"),
      ({ one }) => `a roughness of at most the bore, ${one(bore, "bore")}`,
      roughness,
      "bore",
    );
  },
  refer(pipe, at, names, problems) {
    referEnd(pipe.from, "from", { pipe, at }, names, problems);
    referEnd(pipe.to, "to", { pipe, at }, names, problems);
  },
};

function referEnd(
  end: PipeEnd,
  side: "from" | "to",
  owner: { pipe: Pipe; at: Place },
  names: Names,
  problems: Problems,
): void {
  const at = inside(owner.at, side);
  if ("open" in end) return;
  if ("pipe" in end) {
    const on = inside(at, "pipe");
    if (end.pipe === owner.pipe.id) problems.add(on, "another pipe than this one", end.pipe);
    else names.expect(end.pipe, ["pipe"], on, problems);
    return;
  }
  const on = inside(at, "part");
  if (!names.expect(end.part, ["pond", "vessel", "pump"], on, problems)) return;
  const part = names.part(end.part);
  if (part?.kind === "pump") {
    for (const field of ["x", "z", "mouth"] as const) {
      if (end[field] === undefined) continue;
      problems.add(inside(at, field), `no ${field}: an end on a pump is where the pump is`, end[field]);
    }
    if (side === "to" && part.in !== undefined) {
      problems.addWords(
        on,
        `a pump that draws from a pipe ("${part.id}" stands in "${part.in}" and draws from there)`,
        `"${end.part}"`,
      );
    }
  } else if (part) {
    if (end.z === undefined) problems.add(inside(at, "z"), rangeWords(ranges.level), undefined);
    if (end.mouth === undefined) problems.add(inside(at, "mouth"), 'one of "side", "down", "up"', undefined);
  }
}
