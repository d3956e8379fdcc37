import { useSyncExternalStore } from "react";

const listen = (changed: () => void): (() => void) => {
  window.addEventListener("resize", changed);
  return () => window.removeEventListener("resize", changed);
};

export function useWindowSize(): { readonly width: number; readonly height: number } {
  const width = useSyncExternalStore(listen, () => window.innerWidth);
  const height = useSyncExternalStore(listen, () => window.innerHeight);
  return { width, height };
}
