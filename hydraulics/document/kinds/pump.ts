import { most, ranges } from "../limits.ts";
import type { Pump } from "../section.ts";
import { list, may, needs, number, oneOf, pair, text } from "../shape/check.ts";
import { inside, type Place } from "../shape/place.ts";
import type { Problems } from "../shape/problems.ts";
import { id } from "./id.ts";
import type { Kind } from "./kind.ts";

const curve = list(pair("a flow and a head, [m³/s, m]", number(ranges.flow), number(ranges.head)), {
  what: "points [m³/s, m]",
  min: 2,
  max: most.curvePoints,
});

/** An intake may stand outside its body or over its water: then the pump runs dry, which is for a finding. */
export const pump: Kind<Pump> = {
  called: "a pump",
  fields: {
    id: needs(id),
    kind: needs(oneOf("pump")),
    label: may(text),
    x: needs(number(ranges.x)),
    z: needs(number(ranges.level)),
    in: may(id),
    outletBore: may(number(ranges.bore)),
    curve: may(curve),
    maxFlow: may(number(ranges.greatestFlow)),
    maxHead: may(number(ranges.greatestHead)),
    watts: may(number(ranges.watts)),
    stoppedK: may(number(ranges.coefficient)),
    speed: may(number(ranges.speed)),
  },
  agree(pump, at, problems) {
    agreeOnSource(pump, at, problems);
    if (pump.curve) agreeOnCurve(pump.curve, inside(at, "curve"), problems);
  },
  refer(pump, at, names, problems) {
    if (pump.in !== undefined) names.expectBody(pump.in, inside(at, "in"), problems);
  },
};

/** One statement of what the pump can do: points, or the two greatest values. Both could contradict each other,
 * and the one left out would be left out in silence. */
function agreeOnSource({ curve, maxFlow, maxHead }: Pump, at: Place, problems: Problems): void {
  if (curve && (maxFlow !== undefined || maxHead !== undefined)) {
    problems.addWords(inside(at, "curve"), "either a curve or maxFlow and maxHead", "both");
  } else if (!curve && maxFlow === undefined && maxHead === undefined) {
    problems.addWords(inside(at, "curve"), "a curve, or maxFlow and maxHead in its place", "neither");
  } else if (!curve && maxFlow === undefined) {
    problems.add(inside(at, "maxFlow"), "a greatest flow beside maxHead", undefined);
  } else if (!curve && maxHead === undefined) {
    problems.add(inside(at, "maxHead"), "a greatest head beside maxFlow", undefined);
  }
}

function agreeOnCurve(curve: NonNullable<Pump["curve"]>, at: Place, problems: Problems): void {
  for (let i = 1; i < curve.length; i++) {
    const [flowBefore, headBefore] = curve[i - 1] as readonly [number, number];
    const [flow, head] = curve[i] as readonly [number, number];
    if (flow <= flowBefore) {
      problems.addNumber(
        inside(inside(at, i), 0),
        ({ one }) => `a flow above ${one(flowBefore, "flow")} (flows rise from point to point)`,
        flow,
        "flow",
      );
    }
    if (head >= headBefore) {
      problems.addNumber(
        inside(inside(at, i), 1),
        ({ one }) => `a head below ${one(headBefore, "head")} (heads fall as flow rises)`,
        head,
        "head",
      );
    }
  }
}
