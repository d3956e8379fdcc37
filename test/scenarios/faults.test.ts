/** Single faults: for each kind a drawing where it matters and a neighbour, a number or a part away, where it does not.
 *
 * The pond of the builders: 3 m × 2 m, bed at −0.8, water at 0.01: 4,860 L. The pump's intake is at −0.5 unless said.
 * Levels by hand; the words of the outcomes are common practice, no source (`faults/judge.ts`). */
import { describe, expect, it } from "vitest";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import { waterVolume } from "../../hydraulics/document/volumes.ts";
import type { FaultResult } from "../../hydraulics/faults/fault.ts";
import { eachFault, faultKinds, playFault, sectionInFault, surveyFaults } from "../../hydraulics/faults/index.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import {
  checkValve,
  flushPipe,
  flushValve,
  loopedSupply,
  pipe,
  pond,
  pump,
  returnPipe,
  section,
  valve,
  vent,
  vessel,
} from "../support/builders.ts";
import { readDrawing } from "./readDrawing.ts";

function startOf(of: Section) {
  const state = solveSteady(of);
  if (!state.solved.converged) throw new Error("the drawing did not converge");
  return { state, powerCut: simulatePowerCut(of, state) };
}

const survey = (of: Section): readonly FaultResult[] => surveyFaults(of, startOf(of));

function fault(of: Section, code: string, part?: string): FaultResult {
  const found = survey(of).find((each) => each.fault === code && (part === undefined || each.part === part));
  if (!found) throw new Error(`no fault ${code}`);
  return found;
}

const hasFault = (of: Section, code: string): boolean => survey(of).some((each) => each.fault === code);

/** The working drawing with other parts in place of its own. */
const yard = (...changed: readonly Part[]): Section => {
  const parts = new Map(loopedSupply().parts);
  for (const part of changed) parts.set(part.id, part);
  return section([...parts.values()]);
};
const without = (of: Section, ...ids: readonly string[]): Section =>
  section([...of.parts.values()].filter(({ id }) => !ids.includes(id)));

const airGap = () =>
  pipe({
    to: { part: "vessel", x: 4, z: 0.8, mouth: "down" },
    route: [
      [0.4, 0.9],
      [4, 0.9],
    ],
  });

describe("faults of the power cut", () => {
  it("a power cut is harmless where a vent stands above the water", () => {
    expect(fault(yard(), "powerCut").outcome).toBe("harmless");
  });

  it("a power cut drains the vessel where that vent's tee stands under the water", () => {
    // The last leg falls from 0.7 at 4.1 m: at 4.4 m its tee stands at 0.4.
    const low = yard(vent({ on: { pipe: "supply", at: 4.4 }, openEndZ: 1 }));

    expect(fault(low, "powerCut")).toMatchObject({ outcome: "nuisance", lostToGround: expect.closeTo(0, 6) });
  });

  it("a check valve stuck open lets the vessel run back where nothing else holds it", () => {
    const flap = without(yard(checkValve({ id: "flap", on: { pipe: "supply", at: 0.5 } })), "vent");

    expect(fault(flap, "powerCut").outcome).toBe("harmless");
    expect(fault(flap, "checkValveStuck").outcome).toBe("nuisance");
  });

  it("a check valve stuck open is harmless where a vent stands above the water", () => {
    const flap = yard(checkValve({ id: "flap", on: { pipe: "supply", at: 0.5 } }));

    expect(fault(flap, "checkValveStuck").outcome).toBe("harmless");
  });

  it("a check valve that is drawn stuck open is no new fault", () => {
    const stuck = yard(checkValve({ id: "flap", on: { pipe: "supply", at: 0.5 }, stuckOpen: true }));

    expect(hasFault(stuck, "checkValveStuck")).toBe(false);
  });

  it("a blocked vent lets the vessel siphon down to its low entry: 0.1 less half of 34 mm", () => {
    const { outcome, vesselLeft } = fault(yard(), "ventBlocked");

    expect(outcome).toBe("nuisance");
    // 0.45 × 0.636 m² between the lower stones: 23.8 L under the entry's invert,
    // and at most 4.7 m of line falling back.
    expect(vesselLeft.get("vessel" as PartId)).toBeGreaterThan(0.0237);
    expect(vesselLeft.get("vessel" as PartId)).toBeLessThan(0.0281);
  });

  it("the courtyard is not held with its vent blocked, which its power cut alone does not show", () => {
    const courtyard = readDrawing("./design/courtyard.json");

    expect(fault(courtyard, "powerCut").outcome).toBe("harmless");
    expect(fault(courtyard, "ventBlocked").outcome).toBe("nuisance");
  });

  it("a blocked vent is harmless on a supply that ends over the rim", () => {
    expect(fault(yard(airGap(), vent({ on: { pipe: "supply", at: 2 } })), "ventBlocked").outcome).toBe("harmless");
  });
});

describe("faults while the pump runs", () => {
  it("a blocked return sends the pond over the vessel's rim until the intake is bare at −0.5", () => {
    const { outcome, pondLevelLeft, pondDepthLeft, pondShareLeft, timeToPumpDry, timeToHalfPond, reason } = fault(
      yard(),
      "returnBlocked",
    );

    expect(outcome).toBe("water lost");
    expect(Math.abs((pondLevelLeft ?? 0) + 0.5)).toBeLessThan(0.005);
    expect(pondDepthLeft).toBeCloseTo(0.3, 2);
    expect(pondShareLeft).toBeCloseTo(0.3 / 0.81, 2);
    // Half of the pond is gone at −0.395, before the intake is bare at −0.5.
    expect(timeToHalfPond).not.toBeNull();
    expect(timeToPumpDry ?? 0).toBeGreaterThan(timeToHalfPond ?? 0);
    expect(reason).toContain("over the rim of vessel");
  });

  it("an intake 0.15 m lower makes the same fault one that puts fish at risk: 0.15 of 0.81 m is under a third", () => {
    expect(fault(yard(pump({ z: -0.65 })), "returnBlocked").outcome).toBe("fish at risk");
  });

  it("a blocked return is harmless where a second one carries the water", () => {
    const two = yard(
      returnPipe({ id: "second", to: { part: "pond", x: 2.4, z: 0.04, mouth: "down" }, route: [[2.4, 0.58]] }),
    );

    expect(fault(two, "returnBlocked", "return").outcome).toBe("harmless");
  });

  it("half of a narrow return's area is too little; half of a wide one's is enough", () => {
    expect(fault(yard(returnPipe({ bore: 0.035 })), "returnHalfBlocked").outcome).not.toBe("harmless");
    expect(fault(yard(), "returnHalfBlocked").outcome).toBe("harmless");
  });

  it("a supply parted over the ground empties the pond down to the intake", () => {
    const { outcome, pondLevelLeft } = fault(yard(), "supplyParted");

    expect(outcome).toBe("water lost");
    expect(Math.abs((pondLevelLeft ?? 0) + 0.5)).toBeLessThan(0.005);
  });

  it("a supply that stands over the pond all along has nowhere to lose water by parting", () => {
    expect(hasFault(yard(pond({ width: 6 })), "supplyParted")).toBe(false);
  });

  it("a supply that comes off at the vessel lets out what stands over its opening as well", () => {
    const { outcome, vesselLeft } = fault(yard(), "supplyOffVessel");

    expect(outcome).toBe("water lost");
    // Down to the opening's invert, 0.1 less half of 34 mm: 0.083 m × 0.45 × 0.636 m² between the stones.
    expect(vesselLeft.get("vessel" as PartId)).toBeCloseTo(0.0238, 4);
  });

  it("a pump that is off has no supply that could come off", () => {
    expect(hasFault(yard(pump({ speed: 0 })), "supplyOffVessel")).toBe(false);
  });

  it("a flush left open pumps the pond to the ground; one that leads back to the pond only lowers the vessel", () => {
    const back = yard(
      flushPipe({
        from: { part: "vessel", z: 0.1, mouth: "side" },
        to: { part: "pond", x: 2.9, z: 0.03, mouth: "down" },
        route: [[2.9, 0.08]],
      }),
    );

    expect(fault(yard(), "flushOpen").outcome).toBe("water lost");
    expect(fault(back, "flushOpen").lostToGround).toBeCloseTo(0, 6);
    expect(["nuisance", "harmless"]).toContain(fault(back, "flushOpen").outcome);
  });

  it("a flush that stands open in the drawing is no new fault", () => {
    expect(hasFault(yard(flushValve({ open: 1 })), "flushOpen")).toBe(false);
  });

  it("a throttle shut on the return floods; one on the supply only stops the flow", () => {
    const onReturn = yard(valve({ id: "throttle", on: { pipe: "return", at: 0.2 }, open: 1, role: "throttle" }));
    const onSupply = yard(valve({ id: "throttle", on: { pipe: "supply", at: 0.2 }, open: 1, role: "throttle" }));

    expect(fault(onReturn, "throttleShut").outcome).toBe("water lost");
    expect(fault(onSupply, "throttleShut")).toMatchObject({
      outcome: "nuisance",
      reason: expect.stringContaining("less than a quarter"),
    });
  });

  it("clogging stops the flow through sand; through gravel it hardly shows", () => {
    const bed = vessel({ media: [{ depth: 0.3, grain: 0.00015, porosity: 0.4 }] });
    // The vent's end stands over all that the pump can lift: lower, it would spill.
    const sand = yard(bed, vent({ bore: 0.0315, openEndZ: 3 }));

    expect(fault(sand, "mediaClogged")).toMatchObject({
      outcome: "nuisance",
      reason: expect.stringContaining("less than a quarter"),
    });
    expect(fault(yard(bed), "mediaClogged").outcome).toBe("water lost");
    expect(fault(yard(), "mediaClogged").outcome).toBe("harmless");
  });

  it("a vessel without media cannot clog", () => {
    expect(hasFault(yard(vessel({ media: [] })), "mediaClogged")).toBe(false);
  });

  it("a pump of 2.8 m lifts over 2.2 m, but not at 70 % of it: 1.96 m", () => {
    const high = yard(
      pipe({
        route: [
          [0.4, 2.2],
          [3.3, 2.2],
          [3.3, 0.1],
        ],
      }),
      vent({ on: { pipe: "supply", at: 4 }, bore: 0.0315, openEndZ: 2.5 }),
    );

    expect(fault(high, "pumpWeak")).toMatchObject({
      outcome: "nuisance",
      reason: expect.stringContaining("less than a quarter"),
    });
    expect(fault(yard(), "pumpWeak").outcome).toBe("harmless");
  });

  it("50 mm of rain finds 40 mm of room: 10 mm of 6 m² go over the rim, 60 L and no more", () => {
    const { outcome, lostToGround } = fault(yard(), "rain");

    expect(outcome).toBe("nuisance");
    expect(lostToGround).toBeCloseTo(0.06, 3);
  });

  it("where more goes to the ground than rain brings in, the sentence says the litres of the table, and the rain", () => {
    const leaky = yard(flushValve({ open: 1 }));
    const { outcome, lostToGround, reason } = fault(leaky, "rain");

    expect(outcome).toBe("water lost");
    expect(lostToGround).toBeGreaterThan(1);
    expect(reason).toContain(`${Math.round(1000 * lostToGround).toLocaleString("en-US")} L go to the ground`);
    // 50 mm over 3 m × 2 m
    expect(reason).toContain(", after 300 L of rain came in;");
  });

  it("50 mm of rain find 60 mm of room", () => {
    const roomy = yard(pond({ waterLevel: -0.01 }));

    expect(fault(roomy, "rain")).toMatchObject({ outcome: "harmless", lostToGround: expect.closeTo(0, 6) });
  });

  it("a pond 100 mm low bares an intake 90 mm under the water; one at half a metre it does not", () => {
    const shallow = yard(pump({ z: -0.08 }));

    expect(fault(shallow, "pondLow")).toMatchObject({ outcome: "nuisance", timeToPumpDry: expect.any(Number) });
    expect(fault(yard(), "pondLow")).toMatchObject({ outcome: "harmless", timeToPumpDry: null });
  });
});

describe("the drawing in a fault", () => {
  const partInFault = (of: Section, found: FaultResult, id: string): Part | undefined =>
    sectionInFault(of, found).parts.get(id as PartId);

  it("has the flush valve open that was left open, and nothing else changed", () => {
    const found = fault(yard(), "flushOpen");

    expect(found.changed.map(({ id }) => id)).toEqual(["flush-valve"]);
    expect(partInFault(yard(), found, "flush-valve")).toMatchObject({ open: 1 });
    expect(yard().parts.get("flush-valve" as PartId)).toMatchObject({ open: 0 });
  });

  it("has a plug in the return that is blocked, under an id that no file can hold", () => {
    const [plug, ...others] = fault(yard(), "returnBlocked").changed;

    expect(plug).toMatchObject({ kind: "valve", open: 0, on: { pipe: "return", at: 0 } });
    expect(plug?.id).toContain(".");
    expect(others).toEqual([]);
  });

  it("has a parted supply in two pieces, its vent on the one that it stood on, and leaves the return alone", () => {
    const found = fault(yard(), "supplyOffVessel");

    expect(found.changed.map(({ id }) => id).sort()).toEqual(["supply", "supply.tail"]);
    expect(partInFault(yard(), found, "supply")).toMatchObject({ to: { open: true } });
    expect(partInFault(yard(), found, "vent")).toMatchObject({ on: { pipe: "supply", at: 4 } });
  });

  it("is the drawing itself where rain falls or the pond is low: those set levels, which the history starts from", () => {
    for (const code of ["rain", "pondLow", "powerCut"]) expect(fault(yard(), code).changed).toEqual([]);
    // 100 mm under 0.01.
    expect(fault(yard(), "pondLow").history.levels.get("pond" as PartId)?.[0]).toBeCloseTo(-0.09, 6);
  });

  it("is judged by its own power cut: a vessel that its vent held drains with the vent blocked", () => {
    const of = yard();
    const drawn = startOf(of).powerCut.vessels.get("vessel" as PartId);
    const found = fault(of, "ventBlocked");

    expect(drawn?.verdict).toBe("held");
    expect(found.cut?.vessels.get("vessel" as PartId)).toMatchObject({ verdict: "drains", heldBy: "nothing" });
    expect(found.drained).toEqual(["vessel"]);
  });

  it("has no power cut of its own while the pump runs on, and says which bodies run over", () => {
    expect(fault(yard(), "returnBlocked")).toMatchObject({ cut: null, overRim: ["vessel"] });
  });
});

describe("one fault played alone", () => {
  it.each(["courtyard", "cellar-wall", "mill-pair"])("%s: each is what the survey makes of it", (drawing) => {
    const of = readDrawing(`./design/${drawing}.json`);
    const start = startOf(of);

    for (const surveyed of surveyFaults(of, start)) expect(playFault(of, start, surveyed)).toEqual(surveyed);
  });

  it("is none where the drawing has no such fault any more", () => {
    const start = startOf(yard());

    expect(playFault(yard(), start, { fault: "ventBlocked", part: "gone" as PartId })).toBeNull();
    expect(playFault(yard(), start, { fault: "unheard-of", part: null })).toBeNull();
  });
});

describe("the survey", () => {
  const drawings = ["courtyard", "cellar-wall", "mill-pair", "two-terraces", "gallons"] as const;

  it.each(drawings)("%s: what is left, what is lost and what was there agree, fault by fault", (drawing) => {
    const of = readDrawing(`./design/${drawing}.json`);
    const start = startOf(of);
    let before = 0;
    for (const { body, surface } of start.state.network.bodies.values())
      before += waterVolume(body, start.state.system.head[surface] as number);

    for (const each of surveyFaults(of, start)) {
      // Rain and a low pond start with more or less water; columns that fall out of pipes come on top in a cut.
      if (each.fault === "rain" || each.fault === "pondLow" || each.title.startsWith("Power cut")) continue;
      let after = each.pondLeft + each.lostToGround;
      for (const left of each.vesselLeft.values()) after += left;
      expect(Math.abs(after - before), each.title).toBeLessThan(1e-5 * before);
    }
  });

  it("stands worst first, each fault counted once", () => {
    const order = ["fish at risk", "water lost", "nuisance", "harmless"];
    const of = readDrawing("./design/courtyard.json");
    const steps = [...eachFault(of, startOf(of))];
    const places = survey(of).map(({ outcome }) => order.indexOf(outcome));

    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(steps.map(({ done }) => done)).toEqual(steps.map((_, k) => k + 1));
    expect(new Set(steps.map(({ total }) => total))).toEqual(new Set([steps.length]));
  });

  it.each(drawings)("%s: of two that leave the ponds alike, the one that loses more water stands first", (drawing) => {
    const found = survey(readDrawing(`./design/${drawing}.json`));

    const alike = found.slice(1).flatMap((after, k) => {
      const before = found[k] as FaultResult;
      const same = Math.abs(after.pondShareLeft - before.pondShareLeft) < 1e-6 && after.outcome === before.outcome;
      return same ? [[before, after] as const] : [];
    });
    expect(alike.length).toBeGreaterThan(0);
    for (const [before, after] of alike)
      expect(after.lostToGround, `${before.title}, ${after.title}`).toBeLessThan(before.lostToGround + 2e-4);
  });

  it("stops between two faults when nobody asks for more", () => {
    const of = readDrawing("./design/courtyard.json");
    const faults = eachFault(of, startOf(of));

    faults.next();
    faults.return();

    expect(faults.next().done).toBe(true);
  });

  it("names every kind of the table once", () => {
    const codes = faultKinds.map(({ code }) => code);

    expect(new Set(codes).size).toBe(codes.length);
    expect(codes).toHaveLength(13);
  });

  it("does not change the drawing that it surveys", () => {
    const of = readDrawing("./design/gallons.json");
    const before = JSON.stringify([...of.parts]);

    survey(of);

    expect(JSON.stringify([...of.parts])).toBe(before);
  });
});
