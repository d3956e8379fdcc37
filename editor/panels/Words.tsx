/** What one does with the sheet as a whole, as words on its edge: with the drawing, with its steps, what follows from it,
 * how it is shown. On a narrow sheet they fold into one. */
import { type JSX, useEffect, useRef, useState, useSyncExternalStore } from "react";
import { sentencesOf } from "../sheet/sentence.ts";
import type { UnitSystem } from "../sheet/units.ts";
import type { DeskState } from "../state/desk.ts";
import type { Step } from "../state/history.ts";
import type { Commands } from "./commands.ts";
import { useDesk, useProgram } from "./useDesk.ts";
import "./Words.css";

export function Words({ commands }: { readonly commands: Commands }): JSX.Element {
  const { desk, keeper } = useProgram();
  const units = useDesk((state) => state.view.units);
  const theme = useDesk((state) => state.view.theme);
  const undoLabel = useDesk((state) => labelIn(state, state.history.done.at(-1)));
  const redoLabel = useDesk((state) => labelIn(state, state.history.undone.at(-1)));
  const keeps = useSyncExternalStore(keeper.subscribe, keeper.keeps);
  // What the browser keeps need not be saved, unless it is to be another version of a file.
  const unsaved = useDesk(
    (state) => (state.file !== null || !keeps) && state.saved !== state.section && state.section.parts.size > 0,
  );
  const slip = useDesk((state) => state.view.slip);
  const [open, setOpen] = useState(false);
  const nav = useRef<HTMLElement>(null);
  const unfold = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (!open) return;
    const pressedElsewhere = (event: PointerEvent): void => {
      if (event.target instanceof Node && !nav.current?.contains(event.target)) setOpen(false);
    };
    document.addEventListener("pointerdown", pressedElsewhere);
    return () => document.removeEventListener("pointerdown", pressedElsewhere);
  }, [open]);
  const fold = (): void => {
    setOpen(false);
    // The word that was pressed folds away; on a wide sheet the one that unfolds is not there to take the focus.
    if (open) unfold.current?.focus();
  };
  const word = (
    text: string,
    act: () => void,
    more: { disabled?: boolean; title?: string; pressed?: boolean } = {},
  ): JSX.Element => (
    <button
      type="button"
      className="word"
      disabled={more.disabled ?? false}
      title={more.title}
      {...(more.pressed === undefined ? {} : { "aria-pressed": more.pressed })}
      onClick={() => {
        fold();
        act();
      }}
    >
      {text}
    </button>
  );
  const toggleSlip = (
    which:
      | "keys"
      | "table"
      | "steps"
      | "faults"
      | "drawings"
      | "begin"
      | "handOut"
      | "gallery"
      | "rules"
      | "whatIf"
      | "buy",
  ): void => desk.look((view) => ({ ...view, slip: view.slip === which ? null : which }));
  return (
    <nav
      ref={nav}
      className={open ? "words open" : "words folded"}
      aria-label="The sheet"
      onKeyDown={(event) => {
        if (!open || event.key !== "Escape") return;
        event.stopPropagation();
        fold();
      }}
    >
      <button ref={unfold} type="button" className="word unfold" aria-expanded={open} onClick={() => setOpen(!open)}>
        Sheet
      </button>
      <div className="word-group">
        {word("New", () => toggleSlip("begin"), {
          pressed: slip === "begin",
          title: "A new drawing, from five questions or empty (n)",
        })}
        {word("Samples", () => toggleSlip("gallery"), {
          pressed: slip === "gallery",
          title: "Invented drawings, one lesson each",
        })}
        {word("Drawings", () => toggleSlip("drawings"), {
          pressed: slip === "drawings",
          title: "The drawings that this browser keeps (d)",
        })}
        {word("Open", commands.open, { title: "Open a drawing (Ctrl O)" })}
        {word(unsaved ? "Save •" : "Save", commands.save, {
          title: keeps ? "Save the drawing (Ctrl S)" : "This browser does not keep the drawing: save it (Ctrl S)",
        })}
        {word("Save as", commands.saveAs, { title: "Save the drawing under another name (Ctrl Shift S)" })}
        {word("Hand out", () => toggleSlip("handOut"), {
          pressed: slip === "handOut",
          title: "The sheet as SVG, on paper, as a picture or as a link",
        })}
      </div>
      <div className="word-group stays">
        {word("Undo", desk.undo, {
          disabled: undoLabel === null,
          title: undoLabel ? `Undo: ${undoLabel} (Ctrl Z)` : "Nothing to undo",
        })}
        {word("Redo", desk.redo, {
          disabled: redoLabel === null,
          title: redoLabel ? `Redo: ${redoLabel} (Ctrl Y)` : "Nothing to redo",
        })}
        {word("Steps", () => toggleSlip("steps"), {
          pressed: slip === "steps",
          title: "Every step so far; go back to any, or compare it",
        })}
      </div>
      <div className="word-group">
        {word("Faults", () => toggleSlip("faults"), {
          pressed: slip === "faults",
          title: "What is left if one thing fails, worst first",
        })}
        {word("What if", () => toggleSlip("whatIf"), {
          pressed: slip === "whatIf",
          title: "One number over a range, or a pipe in every size that is sold",
        })}
        {word("Rules", () => toggleSlip("rules"), {
          pressed: slip === "rules",
          title: "Rules of thumb beside this drawing, and sizing from a pond on",
        })}
        {word("Buy", () => toggleSlip("buy"), { pressed: slip === "buy", title: "What to buy, with your prices" })}
        {word("Parts", () => toggleSlip("table"), {
          pressed: slip === "table",
          title: "A table of the parts and what they read",
        })}
      </div>
      <div className="word-group">
        {word("Fit", commands.fit, { title: "The whole section on the sheet (0)" })}
        {word(
          units === "metric" ? "Metric" : "US units",
          () =>
            desk.look((view) => ({ ...view, units: (view.units === "metric" ? "us" : "metric") satisfies UnitSystem })),
          { title: units === "metric" ? "Metric units are shown; show US units" : "US units are shown; show metric" },
        )}
        {word(
          theme === "paper" ? "Night" : "Day",
          () => desk.look((view) => ({ ...view, theme: view.theme === "paper" ? "night" : "paper" })),
          { title: theme === "paper" ? "Light lines on a dark sheet" : "Dark lines on a light sheet" },
        )}
        {word("Keys", () => toggleSlip("keys"), { pressed: slip === "keys", title: "What the keys do (?)" })}
      </div>
    </nav>
  );
}

/** What a step is called, in the units shown: a remedy's tells its figures. */
const labelIn = ({ section, view }: DeskState, step: Step | undefined): string | null =>
  step ? sentencesOf(section, view.units)(step.edit.label) : null;
