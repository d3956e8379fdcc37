import { type JSX, useEffect, useRef } from "react";
import { wholeFigures } from "./wholeFigures.tsx";

/** What is wrong with the field above it, brought into sight: in a low window it would be said below that. */
export function Trouble({ id, words }: { readonly id: string; readonly words: string }): JSX.Element {
  const said = useRef<HTMLParagraphElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: other words are said anew
  useEffect(() => said.current?.scrollIntoView({ block: "nearest" }), [words]);
  return (
    <p ref={said} className="trouble" id={id} role="alert">
      {wholeFigures(words)}
    </p>
  );
}
