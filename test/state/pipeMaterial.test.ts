import { expect, it } from "vitest";
import { pipeFields } from "../../editor/panels/fields/pipe.ts";
import type { Pipe } from "../../hydraulics/index.ts";
import { pipe, section } from "../support/builders.ts";

function chosen(given: Partial<Pipe>, material: string): Pipe {
  const changed = { ...pipe(), ...given };
  for (const field of pipeFields)
    if (field.kind === "choice" && field.label === "Material")
      field.set(changed as never, material, section([changed]));
  return changed;
}

const sold = { nominal: "PVC-U metric, SDR 21 (PN 10), 50", bore: 0.0452, material: "pvc" } as const;

it("a pipe of another material is no longer the one that is sold in its own", () => {
  const copper = chosen(sold, "copper");

  expect(copper).toMatchObject({ material: "copper", bore: 0.0452 });
  expect(copper).not.toHaveProperty("nominal");
});

it("the same material chosen again, and a name of the user's own, stay", () => {
  expect(chosen(sold, "pvc")).toMatchObject(sold);
  expect(chosen({ nominal: "from the attic" }, "copper")).toMatchObject({ nominal: "from the attic" });
});
