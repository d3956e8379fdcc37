/** A line that takes what is typed: kept until Enter or leaving, and said in words where it is not understood. */
import { type JSX, useEffect, useId, useRef, useState } from "react";
import { Trouble } from "./Trouble.tsx";
import { useProgram } from "./useDesk.ts";
import { wholeFigures } from "./wholeFigures.tsx";

/** ms in which what is wrong with a field can hardly have been read */
const justSaid = 600;

/** What every field with something wrong under it does once another field's text is taken. */
const onOthersTaken = new Set<() => void>();

export interface TypedInputProps {
  readonly label: string;
  readonly text: string;
  readonly placeholder?: string;
  readonly hint?: string;
  /** gives what is wrong with it, or null where it was taken */
  readonly commit: (typed: string) => string | null;
  /** the label is read but not shown: in tables */
  readonly bare?: boolean;
}

/** Keeps what is typed until Enter or leaving; nonsense goes back to the old value and says what is understood. */
export function TypedInput({ label, text, placeholder, hint, commit, bare }: TypedInputProps): JSX.Element {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const { desk } = useProgram();
  const refused = useRef<{ readonly words: string; readonly at: number } | null>(null);
  // Leaving a field by a press elsewhere may take its slip away, and with it the words why what was typed is not kept.
  useEffect(
    () => () => {
      const last = refused.current;
      if (last && performance.now() - last.at < justSaid) desk.say({ text: last.words, tone: "refusal" });
    },
    [desk],
  );
  // A refusal is no longer news once something else has been changed well: beside the new figures it reads as if they
  // were wrong. But the press that leaves this field may itself change the drawing, and nobody has read it by then.
  useEffect(() => {
    if (trouble === null) return;
    const clear = (): void => {
      const last = refused.current;
      if (!last || performance.now() - last.at >= justSaid) setTrouble(null);
    };
    let { section } = desk.get();
    const leave = desk.subscribe(() => {
      const now = desk.get().section;
      if (now === section) return;
      section = now;
      clear();
    });
    onOthersTaken.add(clear);
    return () => {
      leave();
      onOthersTaken.delete(clear);
    };
  }, [desk, trouble]);
  const finish = (): void => {
    if (typed === null) return;
    if (typed.trim() === text.trim()) setTrouble(null);
    else {
      const wrong = commit(typed);
      setTrouble(wrong);
      refused.current = wrong === null ? null : { words: `${label}: ${wrong}`, at: performance.now() };
      if (wrong === null) for (const clear of onOthersTaken) clear();
    }
    setTyped(null);
  };
  const notes = [hint ? `${id}-hint` : "", trouble ? `${id}-trouble` : ""].filter(Boolean).join(" ");
  return (
    <div className={bare ? "cell" : "field"}>
      <label htmlFor={id} className={bare ? "hidden" : undefined}>
        {label}
      </label>
      <input
        id={id}
        value={typed ?? text}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={trouble !== null}
        // Where nothing is newly typed Ctrl Z is the drawing's (`keyboard.ts`).
        data-typed={typed === null ? "no" : "yes"}
        {...(notes ? { "aria-describedby": notes } : {})}
        onChange={(event) => {
          setTyped(event.target.value);
          setTrouble(null);
        }}
        onFocus={(event) => event.target.select()}
        onBlur={finish}
        onKeyDown={(event) => {
          if (event.key === "Enter") {
            event.preventDefault();
            finish();
          } else if (event.key === "Escape" && typed !== null) {
            event.stopPropagation();
            setTyped(null);
            setTrouble(null);
          }
        }}
      />
      {hint && !trouble ? (
        <p className="hint" id={`${id}-hint`}>
          {wholeFigures(hint)}
        </p>
      ) : null}
      {trouble ? <Trouble id={`${id}-trouble`} words={trouble} /> : null}
    </div>
  );
}
