/** What becomes of the drawing on the sheet when another takes its place. */
import { type JSX, useSyncExternalStore } from "react";
import { useDesk, useProgram } from "./useDesk.ts";

export function KeptWords(): JSX.Element | null {
  const { keeper } = useProgram();
  const keeps = useSyncExternalStore(keeper.subscribe, keeper.keeps);
  const isEmpty = useDesk(({ section }) => section.parts.size === 0);
  const isSaved = useDesk(({ saved, section }) => saved === section);
  if (isEmpty) return null;
  if (keeps) return <>The drawing that lies here is kept.</>;
  if (isSaved) return <>This browser keeps no drawings; the one that lies here is saved as it is.</>;
  return <>This browser keeps no drawings: save the one that lies here first, or it may be lost.</>;
}
