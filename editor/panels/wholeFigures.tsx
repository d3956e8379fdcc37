import type { ReactNode } from "react";
import { unparted } from "../sheet/units.ts";

/** A text whose figures do not part from their units at the end of a line. It is read, sought and copied as it was
 * written: the spaces stay plain. */
export function wholeFigures(text: string): ReactNode {
  const pieces = unparted(text).split(/([^ ]*\u00a0[^ ]*)/);
  if (pieces.length === 1) return text;
  return pieces.map((piece, k) =>
    k % 2 === 0 ? (
      piece
    ) : (
      // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place in the text
      <span key={k} style={{ whiteSpace: "nowrap" }}>
        {piece.replaceAll("\u00a0", " ")}
      </span>
    ),
  );
}
