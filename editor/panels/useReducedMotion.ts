import { useSyncExternalStore } from "react";

const query = "(prefers-reduced-motion: reduce)";
const listen = (changed: () => void): (() => void) => {
  const list = window.matchMedia(query);
  list.addEventListener("change", changed);
  return () => list.removeEventListener("change", changed);
};

export const useReducedMotion = (): boolean => useSyncExternalStore(listen, () => window.matchMedia(query).matches);
