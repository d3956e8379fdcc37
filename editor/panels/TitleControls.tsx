import type { CSSProperties, JSX } from "react";
import type { SheetLayout } from "../scene/layout.ts";
import { pxOfRect } from "../sheet/transform.ts";
import { useDesk, useProgram } from "./useDesk.ts";

/** The title block can be pressed: the verdict opens what there is to look at, the foot the drawing's own slip. */
export function TitleControls({
  layout,
  findings,
  solved,
}: {
  readonly layout: SheetLayout;
  readonly findings: number;
  readonly solved: boolean;
}): JSX.Element {
  const { desk } = useProgram();
  const isEmpty = useDesk(({ section }) => section.parts.size === 0);
  const { title } = layout;
  const foot = 14;
  const box = (from: number, tall: number): CSSProperties => {
    const { x: left, y: top, width, height } = pxOfRect({ ...title, y: from, height: tall });
    return { left, top, width, height };
  };
  const toggle = (slip: "findings" | "drawing") =>
    desk.look((view) => ({ ...view, slip: view.slip === slip ? null : slip, selection: new Set() }));
  return (
    <>
      <button
        type="button"
        className="on-picture"
        style={box(title.y, title.height - foot)}
        onClick={() => toggle("findings")}
      >
        <span className="hidden">
          {isEmpty ? "Nothing drawn yet" : solved ? counted(findings) : "Findings, being solved"}
        </span>
      </button>
      <button
        type="button"
        className="on-picture"
        style={box(title.y + title.height - foot, foot)}
        onClick={() => toggle("drawing")}
      >
        <span className="hidden">This drawing: title, site and formulas</span>
      </button>
    </>
  );
}

function counted(findings: number): string {
  if (findings === 0) return "Nothing to look at";
  return findings === 1 ? "1 thing to look at" : `${findings} things to look at`;
}
