/** The drawings that the browser keeps: by name, newest change first; those taken away lie at the foot. */
import { type JSX, useState, useSyncExternalStore } from "react";
import type { About } from "../../state/drawings/shelf.ts";
import { useDesk, useProgram } from "../useDesk.ts";
import "./drawings.css";
import { NewName } from "./NewName.tsx";

export function DrawingsSlip(): JSX.Element {
  const { keeper, desk } = useProgram();
  const list = useSyncExternalStore(keeper.subscribe, keeper.get);
  const keeps = useSyncExternalStore(keeper.subscribe, keeper.keeps);
  const open = useDesk((state) => state.drawing);
  const [naming, setNaming] = useState<string | null>(null);
  const kept = list.filter((about) => about.gone === undefined);
  const gone = list.filter((about) => about.gone !== undefined).sort((a, b) => (b.gone ?? 0) - (a.gone ?? 0));
  const tell = (doing: Promise<void>): void =>
    void doing.catch((error: unknown) =>
      desk.say({
        text: `That did not work: ${error instanceof Error ? error.message : String(error)}`,
        tone: "refusal",
      }),
    );
  const bringBack = (about: About): void => {
    desk.say(null);
    tell(keeper.bringBack(about.id));
  };
  const takeAway = (about: About): void =>
    tell(
      keeper.remove(about.id).then(() =>
        desk.say({
          text: `${about.name} was taken away.`,
          tone: "plain",
          act: {
            label: "Bring it back",
            run: () => bringBack(about),
          },
        }),
      ),
    );
  const action = (word: string, about: About, act: () => void, pressed?: boolean): JSX.Element => (
    <button
      type="button"
      className="word"
      aria-label={`${word} ${about.name}`}
      {...(pressed === undefined ? {} : { "aria-expanded": pressed })}
      onClick={act}
    >
      {word}
    </button>
  );
  return (
    <div className="drawings">
      <ul aria-label="Drawings kept in this browser">
        {kept.map((about) => (
          <li key={about.id} {...(about.id === open ? { "aria-current": true } : {})}>
            <button type="button" className="word name" onClick={() => tell(keeper.open(about.id))}>
              <b>{about.name || "Without a title"}</b>
            </button>
            <span className="when">
              {about.id === open ? "on the sheet, " : ""}
              {whenWords(about.changed)}, {about.parts === 1 ? "1 part" : `${about.parts} parts`}
              {about.parted ? ", from a second window" : ""}
            </span>
            <span className="acts">
              {action("Rename", about, () => setNaming(naming === about.id ? null : about.id), naming === about.id)}
              {action("Duplicate", about, () => tell(keeper.duplicate(about.id)))}
              {action("Take away", about, () => takeAway(about))}
            </span>
            {naming === about.id ? (
              <NewName
                name={about.name}
                rename={(name) => tell(keeper.rename(about.id, name))}
                done={() => setNaming(null)}
              />
            ) : null}
          </li>
        ))}
      </ul>
      <p className="hint">
        {keeps
          ? "Each lies in this browser, on this machine, and is written down at every change. To hand one on, save it to a file."
          : "This browser keeps no drawings now: it may be a private window, or its disk may be full. Save the drawing to a file, or it is gone when the window is closed."}
      </p>
      <footer>
        <button type="button" className="word" onClick={() => desk.look((view) => ({ ...view, slip: "begin" }))}>
          <b>A new drawing</b>
        </button>
      </footer>
      {gone.length > 0 ? (
        <>
          <h3 id="gone">Taken away</h3>
          <ul aria-labelledby="gone">
            {gone.map((about) => (
              <li key={about.id}>
                <span className="name">{about.name || "Without a title"}</span>
                <span className="when">{whenWords(about.gone ?? about.changed)}</span>
                <span className="acts">{action("Bring back", about, () => bringBack(about))}</span>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}

const whenWords = (time: number): string =>
  new Date(time).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
