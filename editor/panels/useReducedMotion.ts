import { useSyncExternalStore } from "react";

/** Asked once: it is live. */
let asked: MediaQueryList | undefined;
const list = (): MediaQueryList => {
  asked ??= window.matchMedia("(prefers-reduced-motion: reduce)");
  return asked;
};
const listen = (changed: () => void): (() => void) => {
  list().addEventListener("change", changed);
  return () => list().removeEventListener("change", changed);
};
const wished = (): boolean => list().matches;

export const useReducedMotion = (): boolean => useSyncExternalStore(listen, wished);
