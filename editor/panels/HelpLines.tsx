/** The four words of help: how to build, and how to change what is there. */
import type { JSX } from "react";

const says = {
  Place: "a pond, a filter vessel beside it and a pump in the pond: press a stencil, then the sheet.",
  Pull: "a pipe from the pump to the vessel, and one from the vessel back to the pond.",
  Drag: "whatever does not fit. Press it to type its exact size or level.",
  Read: "the title block. What is left to look at comes with a remedy that you can press.",
} as const;

export type HelpWord = keyof typeof says;

export const orNew = "Or press New: five answers draw a layout to change from.";

export const HelpLines = ({ words }: { readonly words: readonly HelpWord[] }): JSX.Element => (
  <dl>
    {words.map((word) => (
      <div key={word}>
        <dt>{word}</dt>
        <dd>{says[word]}</dd>
      </div>
    ))}
  </dl>
);
