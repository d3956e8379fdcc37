/** Everything that is on the desk at one moment, and the few ways it changes. Components read it and call
 * these; none of them writes to a document.
 *
 * A drag is a preview: every pointer move computes a section from the one at pointer-down and `showPreview`s
 * it; `keepPreview` commits once. Dropping the preview leaves no trace. */
import type { PartId, Section } from "../../hydraulics/index.ts";
import type { Changed, Edit, Refusal } from "./edit.ts";
import { emptySection } from "./emptySection.ts";
import * as history from "./history.ts";
import { firstView, fitSheet, keepSelection, type View } from "./view.ts";

export interface Message {
  readonly text: string;
  /** further lines: the problems of a file */
  readonly lines?: readonly string[];
  readonly tone: "plain" | "refusal";
  /** a way back or on, as one press */
  readonly act?: { readonly label: string; readonly run: () => void };
}

export interface FileOnDisk {
  readonly name: string;
  readonly handle: unknown;
}

export interface DeskState {
  readonly section: Section;
  readonly history: history.History;
  readonly view: View;
  readonly preview: { readonly section: Section; readonly edit: Edit | null; readonly says: string } | null;
  readonly message: Message | null;
  readonly file: FileOnDisk | null;
  /** the section that the file on disk holds */
  readonly saved: Section | null;
  /** the last step that was done when it was saved; null: none was, or nothing is saved */
  readonly savedAfter: history.Step | null;
  /** under which the browser keeps the drawing */
  readonly drawing: string;
}

export interface Desk {
  get(): DeskState;
  subscribe(listener: () => void): () => void;
  /** Commits what an action gives, or says why it was refused. True where the drawing is as wished. */
  apply(changed: Changed): boolean;
  showPreview(changed: Changed, says?: string): void;
  keepPreview(): void;
  dropPreview(): void;
  undo(): void;
  redo(): void;
  goToStep(count: number): void;
  /** Another drawing: the history starts anew. Without an id it is one that the browser does not keep yet. */
  open(section: Section, file: FileOnDisk | null, drawing?: string): void;
  /** The same drawing, kept under another id from now on. */
  keepAs(drawing: string): void;
  markSaved(saved: Pick<DeskState, "section" | "history">, file: FileOnDisk): void;
  look(change: (view: View) => View): void;
  say(message: Message | null): void;
  choose(ids: Iterable<PartId>): void;
}

const lastDone = ({ done }: history.History): history.Step | null => done.at(-1) ?? null;

/** Ids for one run of the program; what the browser keeps over many runs needs better ones. */
const counted = (): (() => string) => {
  let n = 0;
  return () => `drawing-${++n}`;
};

export function createDesk(now: () => number, section: Section = emptySection, freshId = counted()): Desk {
  let state: DeskState = {
    section,
    history: history.noHistory,
    view: firstView,
    preview: null,
    message: null,
    file: null,
    saved: null,
    savedAfter: null,
    drawing: freshId(),
  };
  const listeners = new Set<() => void>();
  const set = (next: Partial<DeskState>): void => {
    const merged = { ...state, ...next };
    state = { ...merged, view: keepSelection(merged.view, merged.preview?.section ?? merged.section) };
    for (const listener of listeners) listener();
  };
  const refuse = ({ why, whyIn }: Refusal): void =>
    set({ message: { text: whyIn?.(state.view.units) ?? why, tone: "refusal" } });
  const go = (moved: history.Moved): void => {
    const { saved, savedAfter } = state;
    // A step is only ever done after the same steps: back at the one after which was saved, the drawing is the saved one.
    const isSaved = saved !== null && lastDone(moved.history) === savedAfter;
    set({ section: isSaved ? saved : moved.section, history: moved.history, preview: null, message: null });
  };
  const desk: Desk = {
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    apply(changed) {
      if (!changed.ok) {
        refuse(changed);
        return false;
      }
      if (!changed.edit) return true;
      set({
        section: changed.section,
        history: history.commit(state.history, changed.edit, now()),
        preview: null,
        message: null,
      });
      return true;
    },
    showPreview(changed, says = "") {
      // A refused move leaves the last good picture and says why; it is not an error of the hand.
      if (!changed.ok) refuse(changed);
      else set({ preview: { section: changed.section, edit: changed.edit, says }, message: null });
    },
    keepPreview() {
      if (!state.preview) return;
      const { section: next, edit } = state.preview;
      set({ section: edit ? next : state.section, history: history.commit(state.history, edit, now()), preview: null });
    },
    dropPreview() {
      if (state.preview) set({ preview: null, message: null });
    },
    undo: () => go(history.undo(state.section, state.history)),
    redo: () => go(history.redo(state.section, state.history)),
    goToStep: (count) => go(history.goToStep(state.section, state.history, count)),
    open(next, file, drawing = freshId()) {
      set({
        drawing,
        section: next,
        history: history.noHistory,
        preview: null,
        message: null,
        file,
        saved: file ? next : null,
        savedAfter: null,
        view: {
          ...fitSheet(state.view),
          selection: new Set(),
          moment: null,
          playing: false,
          played: null,
          tool: null,
          slip: null,
        },
      });
    },
    keepAs: (drawing) => set({ drawing }),
    markSaved: (saved, file) => set({ saved: saved.section, savedAfter: lastDone(saved.history), file }),
    look(change) {
      const view = change(state.view);
      if (view !== state.view) set({ view });
    },
    say: (message) => set({ message }),
    choose: (ids) => set({ view: { ...state.view, selection: new Set(ids) } }),
  };
  return desk;
}
