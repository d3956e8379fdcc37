/** Copies of parts: what carries them, where they come to stand, what they are called. */
import { describe, expect, it } from "vitest";
import { copyParts, cutParts, duplicateParts } from "../../editor/state/actions/copyParts.ts";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import { pasteAt } from "../../editor/state/actions/pasteAt.ts";
import { type Pasted, pasteParts } from "../../editor/state/actions/pasteParts.ts";
import { removeParts } from "../../editor/state/actions/removeParts.ts";
import { emptySection } from "../../editor/state/emptySection.ts";
import { type Part, pipeLine, placeAt, type Section } from "../../hydraulics/index.ts";
import { checkAction, checkRefused } from "./checkAction.ts";
import { id, part, yard } from "./yard.ts";

const only = (...names: string[]) => new Set(names.map(id));
const without = (section: Section, name: string) => checkAction(section, removeParts(section, only(name)));

/** The one part that is new. */
function fresh(before: Section, { changed, ids }: Pasted): { readonly after: Section; readonly copy: Part } {
  const after = checkAction(before, changed);
  const added = [...after.parts.values()].filter((p) => !before.parts.has(p.id));
  expect(added.map((p) => p.id)).toEqual([...ids]);
  expect(added).toHaveLength(1);
  return { after, copy: added[0] as Part };
}

describe("what can not stand alone", () => {
  it.each(["tap", "flap", "breather"] as const)("another %s comes further along the same pipe", (name) => {
    const before = yard();
    const was = before.parts.get(id(name)) as Extract<Part, { kind: "valve" | "checkValve" | "vent" }>;
    const { copy } = fresh(before, duplicateParts(before, only(name)));

    const { id: _, rank: __, on, ...settings } = copy as typeof was;
    const { id: ___, rank: ____, on: onWas, ...settingsWere } = was;
    expect(on.pipe).toBe(onWas.pipe);
    expect(on.at).toBeCloseTo(onWas.at + 0.2, 6);
    if (name !== "breather") expect(settings).toEqual(settingsWere);
  });

  it("another breather has a riser of the same length", () => {
    const before = yard();
    const supply = part(before, "supply", "pipe");
    const { after, copy } = fresh(before, duplicateParts(before, only("breather")));

    const rise = (vent: Part) =>
      vent.kind === "vent" ? (vent.openEndZ ?? 0) - placeAt(pipeLine(after, supply), vent.on.at)[1] : Number.NaN;
    expect(rise(copy)).toBeCloseTo(rise(part(before, "breather", "vent")), 6);
  });

  it("valve after valve finds a place of its own, at the pipe's end before the others", () => {
    let section = yard();
    const places = [part(section, "tap", "valve").on.at];
    for (let k = 0; k < 8; k++) {
      const { after, copy } = fresh(section, pasteParts(section, copyParts(section, only("tap")), 0.2, 0));
      if (copy.kind === "valve") places.push(copy.on.at);
      section = after;
    }

    const sorted = places.sort((a, b) => a - b);
    sorted.slice(1).forEach((at, k) => {
      expect(at - (sorted[k] as number)).toBeGreaterThan(0.004);
    });
  });

  it("another spillway is cut into the same rim and falls where the first one does", () => {
    const before = yard();
    const { copy } = fresh(before, duplicateParts(before, only("lip")));

    expect(copy).toMatchObject({ kind: "spillway", from: "trough", to: "basin", crestZ: 0.72, width: 0.3 });
  });

  it("where the pipe or the rim is gone it is refused in words", () => {
    const before = yard();
    const tap = copyParts(before, only("tap"));
    const lip = copyParts(before, only("lip"));

    expect(checkRefused(pasteParts(without(before, "purge"), tap, 0.2, 0).changed)).toMatch(/Tap .* pipe/);
    expect(checkRefused(pasteParts(without(before, "trough"), lip, 0.2, 0).changed)).toMatch(/Lip .* rim/);
    expect(checkRefused(pasteParts(emptySection, tap, 0.2, 0).changed)).toMatch(/Tap .* pipe/);
  });

  it("what else was copied with it is pasted, and what was left out is said", () => {
    const pasted = pasteParts(emptySection, copyParts(yard(), only("n1", "tap")), 0.2, 0);

    expect([...checkAction(emptySection, pasted.changed).parts.keys()]).toEqual(["n1"]);
    expect(pasted.leftOut).toMatch(/Tap/);
  });

  it("a cut valve is on the clipboard, and comes back where it was", () => {
    const before = yard();
    const { changed, text } = cutParts(before, only("tap"));
    const cut = checkAction(before, changed);
    const { copy } = fresh(cut, pasteParts(cut, text ?? "", 0.2, 0));

    expect(cut.parts.has(id("tap"))).toBe(false);
    expect(copy).toMatchObject({ ...part(before, "tap", "valve"), rank: copy.rank });
  });

  it("a cut pipe takes along what sits on it", () => {
    const before = yard();
    const { changed, text } = cutParts(before, only("purge"));
    const cut = checkAction(before, changed);
    const after = checkAction(cut, pasteParts(cut, text ?? "", 0.2, 0).changed);

    expect(cut.parts.has(id("tap"))).toBe(false);
    expect(part(after, "tap", "valve").on).toEqual(part(before, "tap", "valve").on);
  });

  it("pasted at a place it goes onto the pipe there, else to the nearest place on its own", () => {
    const before = yard();
    const tap = copyParts(before, only("tap"));
    const other = fresh(before, pasteAt(before, tap, [2, 0.9], id("supply"))).copy;
    const own = fresh(before, pasteAt(before, tap, [6, 1])).copy;

    expect(other.kind === "valve" && other.on).toEqual({ pipe: "supply", at: 3.05 });
    expect(own.kind === "valve" && own.on.pipe).toBe("purge");
  });
});

describe("where copies stand", () => {
  it("a copied pump draws from the water that it comes to stand in", () => {
    const before = yard();

    expect(fresh(before, duplicateParts(before, only("lift"))).copy).toMatchObject({ in: "basin", x: 0.6 });
    expect(fresh(before, pasteAt(before, copyParts(before, only("lift")), [1.5, -0.3])).copy).toMatchObject({
      in: "basin",
    });
    const dry = fresh(before, pasteAt(before, copyParts(before, only("lift")), [3.5, 0.4])).copy;
    expect(dry.kind === "pump" && dry.in).toBeUndefined();
  });

  it("a pump copied with its pond stays in the copy of it", () => {
    const before = yard();
    const after = checkAction(before, duplicateParts(before, only("basin", "lift")).changed);

    expect(part(after, "lift-2", "pump").in).toBe("basin-2");
  });

  it("a pump that is fed by a pipe copied with it stands in no water", () => {
    const before = yard();
    const dry = checkAction(before, moveParts(before, only("lift"), 3.1, 0.9));
    const fed: Section = {
      ...dry,
      parts: new Map([
        ...dry.parts,
        [id("feed"), { ...part(dry, "side-arm", "pipe"), id: id("feed"), rank: 90, to: { part: id("lift") } }],
      ]),
    };
    const after = checkAction(fed, pasteParts(fed, copyParts(fed, only("lift", "feed")), -3, -0.7).changed);

    expect(part(after, "lift-2", "pump").in).toBeUndefined();
  });

  it("each further paste goes a step further than the one before", () => {
    const start = yard();
    const text = copyParts(start, only("trough", "purge", "n1"));
    let section = start;
    for (let k = 0; k < 3; k++) section = checkAction(section, pasteParts(section, text, 0.2, 0).changed);

    expect(["trough-2", "trough-3", "trough-4"].map((name) => part(section, name, "vessel").x)).toEqual([
      4.2, 4.4, 4.6,
    ]);
    expect(["n1-2", "n1-3", "n1-4"].map((name) => section.parts.get(id(name)))).toMatchObject([
      { x: 2.2 },
      { x: 2.4 },
      { x: 2.6 },
    ]);
  });

  it("a second paste at one place does not hide the first", () => {
    const start = yard();
    const text = copyParts(start, only("trough"));
    const once = checkAction(start, pasteAt(start, text, [8, 0.4]).changed);
    const twice = checkAction(once, pasteAt(once, text, [8, 0.4]).changed);

    expect(part(twice, "trough-2", "vessel").x).toBeCloseTo(7.4, 6);
    expect(part(twice, "trough-3", "vessel").x).toBeCloseTo(7.6, 6);
  });
});

describe("what copies are called", () => {
  const labelled = (label: string): Section => {
    const before = yard();
    return {
      ...before,
      parts: new Map(before.parts).set(id("trough"), { ...part(before, "trough", "vessel"), label }),
    };
  };
  it.each([
    ["Trough", "Trough 2"],
    ["Trough 2", "Trough 3"],
    ["Trough DN 50", "Trough DN 50 2"],
    ["x".repeat(400), `${"x".repeat(390)} 2`],
  ])("a copy of %s is %s", (label, wanted) => {
    const before = labelled(label);

    expect(fresh(before, duplicateParts(before, only("trough"))).copy.label).toBe(wanted);
  });

  it("a part without a label stays without, and what was cut keeps its own", () => {
    const before = yard();
    const { changed, text } = cutParts(before, only("n1", "trough"));
    const cut = checkAction(before, changed);
    const after = checkAction(cut, pasteParts(cut, text ?? "", 0.2, 0).changed);

    expect(fresh(before, duplicateParts(before, only("side-arm"))).copy.label).toBeUndefined();
    expect(part(after, "trough", "vessel").label).toBe("Trough");
  });

  it("copies that are set down together get names of their own", () => {
    const before = yard();
    const after = checkAction(before, duplicateParts(before, new Set(before.parts.keys())).changed);
    const labels = [...after.parts.values()].flatMap(({ label }) => label ?? []);

    expect(new Set(labels).size).toBe(labels.length);
  });
});
