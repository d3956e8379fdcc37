import { useLayoutEffect } from "react";

/** When a slip is put away the focus goes back to what opened it, unless it has found another place meanwhile. */
export function useFocusBack(): void {
  useLayoutEffect(() => {
    const opener = document.activeElement;
    return () => {
      // After the slip has gone, and the focus in it with it.
      queueMicrotask(() => {
        const lost = document.activeElement === null || document.activeElement === document.body;
        if (lost && opener instanceof HTMLElement && opener.isConnected) opener.focus();
      });
    };
  }, []);
}
