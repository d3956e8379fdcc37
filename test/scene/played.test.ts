/** A start or a fault played on the strip: the drawing follows it, and the strip says what it is. */
import { describe, expect, it } from "vitest";
import { buildScene } from "../../editor/scene/build.ts";
import { ownerOf } from "../../editor/scene/inFault.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import type { SceneNode } from "../../editor/scene/node.ts";
import { faultPlayed, type PlayedRun, startPlayed } from "../../editor/scene/played.ts";
import { cameraOf, transformOfCamera } from "../../editor/sheet/transform.ts";
import { type Assessed, assess, type FaultResult } from "../../hydraulics/index.ts";
import { loopedSupply } from "../support/builders.ts";

const drawing = loopedSupply();
const assessed: Assessed = assess(drawing, { quick: true, starts: true, faults: true });
const paper = { width: 380, height: 240 };

function sheet(played: PlayedRun | null | undefined, moment: number | null): readonly SceneNode[] {
  const { running, powerCut, findings } = assessed;
  const transform = transformOfCamera(cameraOf(fitSection(drawing, paper)));
  const view = { system: "metric", moment, transform, paper } as const;
  return buildScene({
    section: drawing,
    running,
    powerCut,
    findings,
    view,
    ...(played === undefined ? {} : { played }),
  });
}
const texts = (nodes: readonly SceneNode[]): string =>
  nodes.flatMap((node) => (node.shape === "text" ? [node.text] : [])).join("\n");
const fault = (code: string): FaultResult => {
  const found = assessed.faults.find((one) => one.fault === code);
  if (!found) throw new Error(`the survey has no ${code}`);
  return found;
};

describe("what the strip plays", () => {
  it("is the power cut unless told otherwise", () => {
    expect(texts(sheet(undefined, null))).toContain("If the power fails");
  });

  it("a blocked return is named, with what it comes to, and the title block judges the fault, not the drawing", () => {
    const { outcome } = fault("returnBlocked");
    const said = texts(sheet(faultPlayed(fault("returnBlocked")), 60));

    expect(said).toContain("Fault: Return blocked");
    expect(said).toContain(`In this fault: ${outcome}`);
    expect(said).toContain("left in the pond");
    expect(said).not.toContain("If the power fails");
    expect(said).not.toContain("Holds its water");
  });

  it("the drawing's own verdict stands again as soon as the running state is shown", () => {
    const said = texts(sheet(faultPlayed(fault("returnBlocked")), null));

    expect(said).toContain("Holds its water");
    expect(said).not.toContain("In this fault");
  });

  it("the drawing shows what the fault does to it: a plug, a shut breather, a weak pump, clogged media", () => {
    const within = (code: string) => texts(sheet(faultPlayed(fault(code)), 30)).split("\n");

    expect(within("returnBlocked")).toContain("Blocked here");
    expect(within("ventBlocked").join()).toContain("blocked");
    expect(within("pumpWeak")).toContain("runs, weak");
    expect(within("mediaClogged")).toContain("media clogged");
    expect(within("returnHalfBlocked").join()).toContain("half blocked");
    expect(texts(sheet(faultPlayed(fault("pumpWeak")), null))).not.toContain("weak");
  });

  it("a parted line is drawn as two, and what a fault adds leads back to a part of the drawing", () => {
    const nodes = sheet(faultPlayed(fault("supplyParted")), 10);
    const added = new Set(nodes.flatMap(({ part }) => (part && !drawing.parts.has(part) ? [part] : [])));

    expect(added.size).toBe(1);
    for (const id of added) expect(drawing.parts.get(ownerOf(id))?.kind).toBe("pipe");
  });

  it("levels on the drawing are those of the fault at that moment: the vessel stands at its rim in the end", () => {
    const blocked = fault("returnBlocked");

    // The builders' vessel has its rim at +0.750.
    expect(texts(sheet(faultPlayed(blocked), blocked.duration))).toMatch(/\+0\.750.*\n?.*water/);
    expect(blocked.history.levels.get("vessel" as never)?.at(-1)).toBeCloseTo(0.75, 2);
  });

  it("a pump that runs on in a fault is not said to be stopped, and is in a power cut", () => {
    const words = (nodes: readonly SceneNode[]) => texts(nodes).split("\n");

    expect(words(sheet(faultPlayed(fault("returnBlocked")), 1))).toContain("runs");
    expect(words(sheet(undefined, 1))).toContain("stopped");
  });

  it("a line that came apart bears a cross there, and only while it is played", () => {
    const marks = (nodes: readonly SceneNode[]) => nodes.filter(({ key }) => key.startsWith("parted mark")).length;

    expect(marks(sheet(faultPlayed(fault("supplyParted")), 10))).toBeGreaterThan(0);
    expect(marks(sheet(faultPlayed(fault("supplyParted")), null))).toBe(0);
    expect(marks(sheet(undefined, 10))).toBe(0);
  });

  it("at the first start the vessel is at its base, and the strip says when its outlet runs", () => {
    const start = assessed.starts?.startUp;
    if (!start) throw new Error("the drawing has a running state");
    const said = texts(sheet(startPlayed("startUp", start), 0));

    expect(said).toContain("At the first start");
    expect(said).toContain("±0.000");
  });

  it("while a fault is still sought the strip says so and draws no curve", () => {
    const nodes = sheet(null, null);

    expect(texts(nodes)).toContain("being tried");
    expect(nodes.some(({ key }) => key.startsWith("sheet strip curve"))).toBe(false);
  });
});
