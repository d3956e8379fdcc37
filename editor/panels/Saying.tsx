import { type JSX, useEffect, useRef, useState } from "react";
import { useDesk, useProgram } from "./useDesk.ts";
import "./Saying.css";
import { wholeFigures } from "./wholeFigures.tsx";

/** What the program has to say: a refusal, a file that can not be opened. */
export function Saying({ top }: { readonly top: number }): JSX.Element | null {
  const { desk } = useProgram();
  const message = useDesk((state) => state.message);
  if (!message) return null;
  return (
    <div className={`message ${message.tone}`} role="alert" style={{ top }}>
      <p>{wholeFigures(message.text)}</p>
      {message.lines && message.lines.length > 0 ? (
        <ul>
          {message.lines.map((line) => (
            <li key={line}>{wholeFigures(line)}</li>
          ))}
        </ul>
      ) : null}
      {message.act ? (
        <button type="button" className="word" onClick={message.act.run}>
          <b>{message.act.label}</b>
        </button>
      ) : null}
      <button type="button" className="close" aria-label="Put this away" onClick={() => desk.say(null)} />
    </div>
  );
}

/** Tells a screen reader when the verdict or a key figure has become another, once it has rested a moment. */
export function Announcer({ text }: { readonly text: string }): JSX.Element {
  const [said, setSaid] = useState("");
  const first = useRef(true);
  useEffect(() => {
    const timer = setTimeout(() => {
      if (!first.current || text !== "") setSaid(text);
      first.current = false;
    }, 600);
    return () => clearTimeout(timer);
  }, [text]);
  return (
    <div className="hidden" role="status" aria-live="polite">
      {said}
    </div>
  );
}
