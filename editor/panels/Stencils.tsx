/** The row of line symbols on the sheet's upper edge: press one and click, or pull it onto the sheet. */
import { type JSX, memo } from "react";
import type { Tool } from "../state/view.ts";
import { useDesk, useProgram } from "./useDesk.ts";

interface Stencil {
  readonly tool: Tool;
  readonly name: string;
  readonly help: string;
  readonly letter: string;
  readonly symbol: JSX.Element;
}

/** Drawn in a field of 32 by 22, like the parts themselves; water lines take the water's colour. */
export const stencils: readonly Stencil[] = [
  {
    tool: "pond",
    name: "Pond",
    letter: "p",
    help: "Click where the pond shall be",
    symbol: (
      <>
        <path d="M1 6h5l3 11h14l3-11h5" />
        <path className="wet" d="M7.5 10h17" />
      </>
    ),
  },
  {
    tool: "vessel",
    name: "Vessel",
    letter: "f",
    help: "Click where the filter vessel shall stand",
    symbol: (
      <>
        <path d="M6 3v16h20V3" />
        <path
          className="faint"
          d="M9 16.2a2.6 2 0 1 0 5.2 0 2.6 2 0 1 0-5.2 0M15 16.2a2.6 2 0 1 0 5.2 0 2.6 2 0 1 0-5.2 0M12 12.4a2.4 1.9 0 1 0 4.8 0 2.4 1.9 0 1 0-4.8 0M18.2 12.4a2.4 1.9 0 1 0 4.8 0 2.4 1.9 0 1 0-4.8 0"
        />
      </>
    ),
  },
  {
    tool: "pump",
    name: "Pump",
    letter: "u",
    help: "Click in the water where the pump shall stand",
    symbol: (
      <>
        <circle cx="16" cy="11" r="8" />
        <path d="M10.3 16.6 16 3l5.7 13.6" />
      </>
    ),
  },
  {
    tool: "pipe",
    name: "Pipe",
    letter: "i",
    help: "Pull from one opening to another, or click both ends",
    symbol: <path d="M3 19V5.5h26V19M6 19V8.5h20V19" />,
  },
  {
    tool: "valve",
    name: "Valve",
    letter: "v",
    help: "Click on a pipe",
    symbol: <path d="M6 5v12l20-12v12zM1 11h5M26 11h5" />,
  },
  {
    tool: "checkValve",
    name: "Check",
    letter: "k",
    help: "Click on a pipe; it lets water pass the way the pipe was drawn",
    symbol: <path d="M2 11h28M11 4v14M11 11 22 3.5" />,
  },
  {
    tool: "vent",
    name: "Breather",
    letter: "b",
    help: "Click on a pipe where air shall come in",
    symbol: (
      <>
        <path d="M3 18h26" className="thick" />
        <path d="M16 17V8M10.5 8a5.5 5 0 0 1 11 0" />
      </>
    ),
  },
  {
    tool: "spillway",
    name: "Spill",
    letter: "l",
    help: "Click on the rim of a pond or vessel",
    symbol: (
      <>
        <path d="M6 20V9h9" />
        <path className="wet" d="M6 6h11c5 0 6 5 6.5 13" />
      </>
    ),
  },
  {
    tool: "note",
    name: "Note",
    letter: "t",
    help: "Click where the note shall stand",
    symbol: (
      <>
        <path d="M6 3h20v11l-5 5H6zM26 14h-5v5" />
        <path className="faint" d="M10 8h12M10 12h9" />
      </>
    ),
  },
];

export interface StencilsProps {
  /** a press that moves onto the sheet: pull the symbol */
  readonly onPull: (tool: Tool, event: React.PointerEvent) => void;
  /** pressed by a key: there is no pointer to say where */
  readonly onKey: (tool: Tool) => void;
}

export const Stencils = memo(function Stencils({ onPull, onKey }: StencilsProps) {
  const { desk } = useProgram();
  const tool = useDesk((state) => state.view.tool);
  return (
    <div className="stencils" role="toolbar" aria-label="Stencils">
      {stencils.map((stencil) => (
        <button
          key={stencil.tool}
          type="button"
          className="stencil"
          aria-pressed={tool === stencil.tool}
          aria-keyshortcuts={stencil.letter}
          title={`${stencil.help} (${stencil.letter})`}
          onPointerDown={(event) => onPull(stencil.tool, event)}
          onClick={(event) => {
            // A click made by a key counts no presses.
            if (event.detail === 0) onKey(stencil.tool);
            else desk.look((view) => ({ ...view, tool: view.tool === stencil.tool ? null : stencil.tool }));
          }}
        >
          <svg viewBox="0 0 32 22" aria-hidden="true">
            {stencil.symbol}
          </svg>
          <span>{stencil.name}</span>
        </button>
      ))}
    </div>
  );
});
