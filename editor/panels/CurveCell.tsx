import { type JSX, useEffect, useId, useLayoutEffect, useRef, useState } from "react";
import { Trouble } from "./Trouble.tsx";

export interface CurveCellProps {
  readonly label: string;
  readonly text: string;
  /** why the text waits here and is not in the drawing */
  readonly trouble: string | null;
  /** the cursor comes here as the table opens */
  readonly isEntered: boolean;
  readonly commit: (typed: string) => void;
  /** true where it was a table, and is put in as one */
  readonly paste: (text: string) => boolean;
  /** back to what the drawing holds */
  readonly drop: () => void;
}

/** A figure of a table that is typed as a whole. Not as in `TypedInput`, what can not be taken stays in its field: it
 * may be another row that is wrong, and the table decides when it can be taken. */
export function CurveCell({ label, text, trouble, isEntered, commit, paste, drop }: CurveCellProps): JSX.Element {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const told = typed === null ? trouble : null;
  // The row that was just left may have moved this figure, which lets go of what was selected as the field was entered.
  const input = useRef<HTMLInputElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the figure that moved
  useLayoutEffect(() => {
    if (typed === null && input.current === document.activeElement) input.current?.select();
  }, [text, typed]);
  useEffect(() => {
    if (isEntered) input.current?.focus();
  }, [isEntered]);
  const finish = (): void => {
    if (typed === null) return;
    commit(typed);
    setTyped(null);
  };
  return (
    <div className="cell">
      <label htmlFor={id} className="hidden">
        {label}
      </label>
      <input
        ref={input}
        id={id}
        value={typed ?? text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={told !== null}
        // Where nothing is newly typed Ctrl Z is the drawing's (`keyboard.ts`).
        data-typed={typed === null ? "no" : "yes"}
        {...(told ? { "aria-describedby": `${id}-trouble` } : {})}
        onChange={(event) => setTyped(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={finish}
        onPaste={(event) => {
          if (!paste(event.clipboardData.getData("text"))) return;
          event.preventDefault();
          setTyped(null);
        }}
        onKeyDown={(event) => {
          if (event.key === "Enter") {
            event.preventDefault();
            finish();
          } else if (event.key === "Escape" && (typed !== null || trouble !== null)) {
            event.stopPropagation();
            setTyped(null);
            drop();
          }
        }}
      />
      {told ? <Trouble id={`${id}-trouble`} words={told} /> : null}
    </div>
  );
}
