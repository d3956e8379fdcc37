import { type JSX, useEffect, useRef } from "react";
import { TypedInput } from "../TypedInput.tsx";
import { useFocusBack } from "../useFocusBack.ts";

export interface NewNameProps {
  readonly name: string;
  readonly rename: (name: string) => void;
  readonly done: () => void;
}

/** The line for a drawing's new name. The cursor comes into it at once: left on the button, the next keys would go to the
 * drawing on the sheet, where Ctrl A and Delete take every part away. */
export function NewName({ name, rename, done }: NewNameProps): JSX.Element {
  const box = useRef<HTMLDivElement>(null);
  const refused = useRef(false);
  // Before the cursor comes: what has the focus now is what gets it back.
  useFocusBack();
  useEffect(() => box.current?.querySelector("input")?.focus(), []);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it hears the keys of the field in it
    <div
      ref={box}
      onKeyDown={(event) => {
        if (event.key === "Enter" && !refused.current) done();
        if (event.key === "Escape") {
          // Puts away the line, not the whole slip.
          event.stopPropagation();
          done();
        }
      }}
    >
      <TypedInput
        label="New name"
        text={name}
        commit={(typed) => {
          const wanted = typed.trim();
          const trouble = wrongWith(wanted);
          refused.current = trouble !== null;
          if (trouble !== null) return trouble;
          rename(wanted);
          done();
          return null;
        }}
      />
    </div>
  );
}

function wrongWith(name: string): string | null {
  if (name === "") return "A name has at least one letter.";
  return name.length > 400 ? "A name has at most 400 letters." : null;
}
