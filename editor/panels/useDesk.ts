import { createContext, useContext, useRef, useSyncExternalStore } from "react";
import type { Desk, DeskState } from "../state/desk.ts";
import type { Keeper } from "../state/drawings/keeper.ts";
import type { Results } from "../worker/results.ts";

export interface Program {
  readonly desk: Desk;
  readonly results: Results;
  readonly keeper: Keeper;
}

export const ProgramContext = createContext<Program | null>(null);

export function useProgram(): Program {
  const program = useContext(ProgramContext);
  if (!program) throw new Error("a panel stands outside the program");
  return program;
}

/** A part of the desk's state; the component is drawn again only when that part is another object. */
export function useDesk<T>(pick: (state: DeskState) => T): T {
  const { desk } = useProgram();
  return useSyncExternalStore(desk.subscribe, () => pick(desk.get()));
}

/** The newest value in a ref, for listeners that are attached once. */
export function useLatest<T>(value: T): { readonly current: T } {
  const ref = useRef(value);
  ref.current = value;
  return ref;
}
