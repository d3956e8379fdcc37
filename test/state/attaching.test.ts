import { describe, expect, it } from "vitest";
import { placeByKey } from "../../editor/canvas/placing.ts";
import { attachPipeEnd } from "../../editor/state/actions/attachPipeEnd.ts";
import { setPipeEnd } from "../../editor/state/actions/movePipeEnd.ts";
import { placePipe } from "../../editor/state/actions/placePipe.ts";
import type { Changed } from "../../editor/state/edit.ts";
import type { Pipe, PipeEnd, Section } from "../../hydraulics/index.ts";
import { id, part, yard } from "./yard.ts";

const done = (changed: Changed): Section => {
  if (!changed.ok) throw new Error(changed.why);
  return changed.section;
};
/** The yard with nothing in its pump but the water. */
const bare = (): Section => {
  const section = yard();
  const parts = new Map(section.parts);
  for (const each of section.parts.values()) if (each.kind === "pipe" || "on" in each) parts.delete(each.id);
  return { ...section, parts };
};
const byKey = (section: Section): Section => done(placeByKey(section, "pipe", [2.4, 0.61], new Set()));
const attached = (section: Section, which: "from" | "to", end: PipeEnd): Section =>
  done(attachPipeEnd(section, id("pipe"), which, end));
const pipeOf = (section: Section): Pipe => part(section, "pipe", "pipe");
const inTrough = { part: id("trough"), z: 0.1, mouth: "side" } as const;

describe("a pipe that is put down by key and attached in its slip", () => {
  it.each([
    ["from", "to"],
    ["to", "from"],
  ] as const)("is the one that would have been pulled there: `%s` first, then `%s`", (first, second) => {
    const pulled = pipeOf(done(placePipe(bare(), { from: [0.4, -0.55], to: [4, 0.1], reach: 0.05 })));
    const steps = { from: { part: id("lift") }, to: inTrough } as const;
    const section = attached(attached(byKey(bare()), first, steps[first]), second, steps[second]);

    expect(pipeOf(section)).toEqual(pulled);
    expect(pulled.label).toBe("Supply");
    expect(pulled.route?.length).toBeGreaterThan(1);
  });

  it("keeps what was said about it: its name, its bore", () => {
    const placed = byKey(bare());
    const told: Section = {
      ...placed,
      parts: new Map(placed.parts).set(id("pipe"), { ...pipeOf(placed), label: "Riser", bore: 0.04 }),
    };
    const pipe = pipeOf(attached(attached(told, "from", { part: id("lift") }), "to", inTrough));

    expect(pipe).toMatchObject({ label: "Riser", bore: 0.04 });
  });

  it("keeps its line where somebody has led it, or laid it straight between two parts", () => {
    const section = yard();
    const led = part(section, "supply", "pipe");
    const moved = part(done(attachPipeEnd(section, led.id, "to", { ...inTrough, z: 0.3 })), "supply", "pipe");
    const straight = done(placePipe(bare(), { from: [0.4, -0.55], to: [4, 0.1], reach: 0.05, straight: true }));

    expect(moved.route?.slice(0, 2)).toEqual(led.route?.slice(0, 2));
    expect(pipeOf(attached(straight, "to", { ...inTrough, z: 0.3 })).route).toBeUndefined();
  });

  it("a level that is typed takes the leg beside it along, so that it stays level", () => {
    const section = yard();
    const moved = part(done(setPipeEnd(section, id("supply"), "to", { ...inTrough, z: 0.25 })), "supply", "pipe");

    expect(moved.route?.at(-1)).toEqual([3.7, 0.25]);
    expect(moved.to).toEqual({ ...inTrough, z: 0.25 });
    const over = part(done(setPipeEnd(section, id("supply"), "to", { ...inTrough, z: 5 })), "supply", "pipe");
    expect(over.to).toMatchObject({ z: over.route?.at(-1)?.[1] });
  });

  it("both ends in one place are refused in the same words as a pull", () => {
    const section = attached(byKey(yard()), "from", { pipe: id("supply"), at: 1 });
    const changed = attachPipeEnd(section, id("pipe"), "to", { pipe: id("supply"), at: 1 });

    expect(changed).toMatchObject({ ok: false, why: "A pipe of no length can not be built: leave its ends apart." });
  });

  it("a tee into a pipe that hangs on it is refused, and nothing is lost", () => {
    const section = attached(byKey(yard()), "from", { pipe: id("supply"), at: 1 });
    const changed = attachPipeEnd(section, id("supply"), "to", { pipe: id("pipe"), at: 0.5 });

    expect(changed.ok).toBe(false);
  });
});
