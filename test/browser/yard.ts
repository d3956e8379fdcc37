import type { BrowserContextOptions } from "playwright-core";
import { type App, openApp } from "../support/app.ts";
import { drawn, openText, type Px, placesOn, type Saved, type SavedPart } from "./sheet.ts";

/** A window with the yard on its sheet, and where a site place lies on it. */
export async function openYard(
  options: BrowserContextOptions = {},
): Promise<{ readonly app: App; readonly at: (x: number, z: number) => Px }> {
  const app = await openApp(options);
  await drawn(app.page);
  await openText(app.page, "yard.json", yard);
  await app.page.getByRole("heading", { name: /^Yard/ }).waitFor({ state: "attached" });
  return { app, at: await placesOn(app.page) };
}

export function partById(drawing: Saved, id: string): SavedPart {
  const found = drawing.parts.find((part) => part.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
}

/** A drawing to lay hands on: a basin, a trough, a pump, supply, return and breather, sizes invented. */
export const yard = JSON.stringify({
  format: "holdwater-section",
  version: 1,
  title: "Yard",
  site: {},
  parts: [
    {
      id: "basin",
      kind: "pond",
      label: "Basin",
      x: 0,
      width: 3,
      length: 2,
      bedLevel: -0.7,
      rimLevel: 0.05,
      waterLevel: -0.05,
    },
    {
      id: "trough",
      kind: "vessel",
      label: "Trough",
      x: 4,
      plan: { shape: "rectangle", width: 1.2, length: 0.8 },
      baseLevel: 0,
      rimLevel: 0.8,
      media: [{ depth: 0.3, grain: 0.02, porosity: 0.42 }],
    },
    { id: "lift", kind: "pump", label: "Lift", x: 0.5, z: -0.5, in: "basin", maxFlow: 0.0008, maxHead: 2.4, watts: 40 },
    {
      id: "supply",
      kind: "pipe",
      label: "Supply",
      from: { part: "lift" },
      to: { part: "trough", z: 0.1, mouth: "side" },
      route: [
        [0.5, 1],
        [3.7, 1],
        [3.7, 0.1],
      ],
      bore: 0.0284,
      material: "pvc",
    },
    {
      id: "return",
      kind: "pipe",
      label: "Return",
      from: { part: "trough", z: 0.62, mouth: "side" },
      to: { part: "basin", x: 2.6, z: 0.1, mouth: "down" },
      route: [[2.6, 0.6]],
      bore: 0.057,
      material: "pvc",
    },
    { id: "breather", kind: "vent", label: "Breather", on: { pipe: "supply", at: 4 }, bore: 0.012, openEndZ: 1.3 },
  ],
});
