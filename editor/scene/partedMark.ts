/** Where the line came apart that the strip plays: a cross between its two ends, which still touch. */
import type { Drawing } from "./drawing.ts";
import type { SceneNode } from "./node.ts";

export function drawPartedMark({ fault }: Drawing): readonly SceneNode[] {
  if (!fault?.place) return [];
  const cross = {
    part: null,
    space: "site",
    layer: "devices",
    shape: "path",
    at: fault.place,
    data: "M-2.4 -2.4L2.4 2.4M2.4 -2.4L-2.4 2.4",
    fill: "none",
  } as const;
  return [
    { ...cross, key: "parted mark ground", stroke: "sheet", pen: "outline" },
    { ...cross, key: "parted mark", stroke: "drains", pen: "part" },
  ];
}
