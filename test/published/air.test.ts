import { describe, expect, test } from "vitest";
import { airInReturn, froudeFull, selfVentingFlow } from "../../hydraulics/formulas/froude.ts";
import { ampleBore, ventAirFlow, ventArea } from "../../hydraulics/formulas/ventPassage.ts";
import { holdAgainst } from "./hold.ts";
import { airChecks } from "./laws/air.ts";

describe("air and vents", () => holdAgainst(airChecks));

// Source: an orifice of Cd 0.6 and a pipe of friction factor 0.03 in a row share one velocity:
// 1/Ae² = 1/(Cd·A)² + f·L/(d·A²).
test("a bare vent is a sharp opening, half open half of it, and a riser takes what its friction takes", () => {
  const A = (Math.PI * 0.012 ** 2) / 4;

  expect(ventArea(0.012, 1, 0)).toBeCloseTo(0.6 * A, 12);
  expect(ventArea(0.012, 0.5, 0)).toBeCloseTo(0.3 * A, 12);
  expect(ventArea(0.012, 0, 0)).toBe(0);
  expect(1 / ventArea(0.012, 1, 0.4) ** 2 / (1 / (0.6 * A) ** 2 + (0.03 * 0.4) / 0.012 / A ** 2)).toBeCloseTo(1, 12);
});

test("the ample bore draws just the air wanted, riser and all; there is none without suction or with the vent shut", () => {
  const bore = ampleBore({ passing: 0.001, suction: 0.2, density: 998 }, 0.7, 0.5);

  expect(ventAirFlow(0.2, ventArea(bore ?? 0, 0.7, 0.5), 998) / 0.001).toBeCloseTo(1, 6);
  expect(ampleBore({ passing: 0.001, suction: 0, density: 998 }, 1, 0)).toBeNull();
  expect(ampleBore({ passing: 0.001, suction: 0.2, density: 998 }, 0, 0)).toBeNull();
});

test("more than 4.8 m of suction draws no more air than 4.8 m", () => {
  expect(ventAirFlow(6, 1e-4, 998)).toBe(ventAirFlow(4.8, 1e-4, 998));
});

test("a return vents itself up to 0.3, gulps up to 1 and clears itself above", () => {
  expect(froudeFull(selfVentingFlow(0.05), 0.05)).toBeCloseTo(0.3, 12);
  expect([0.29, 0.3, 1, 1.01].map(airInReturn)).toEqual(["ventsItself", "gulps", "gulps", "clearsItself"]);
});
