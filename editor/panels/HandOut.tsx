/** The slip from which the sheet is handed out: how it will look, and the ways it goes. */
import { type JSX, useEffect, useMemo, useRef, useSyncExternalStore } from "react";
import { fragmentOf } from "../link/drawingLink.ts";
import { mostMoments } from "../svg/moments.ts";
import { type PaperName, sheetPapers } from "../svg/sheetPaper.ts";
import type { PaintedSheet } from "../svg/write.ts";
import { ChoiceField } from "./ChoiceField.tsx";
import { type Choices, chooseHandOut, useChoices } from "./handOutChoices.ts";
import { copyPicture, paintPicture } from "./handOutPicture.ts";
import { type HandOut, handOutOf } from "./handOutSheets.ts";
import { saveSvg } from "./saveSvg.ts";
import { useDesk, useProgram } from "./useDesk.ts";
import { useKeptPrices } from "./why/usePrices.ts";
import "./HandOut.css";

export function HandOutSlip(): JSX.Element {
  const { desk, results } = useProgram();
  const choices = useChoices();
  const bought = useKeptPrices();
  const section = useDesk((state) => state.section);
  const units = useDesk((state) => state.view.units);
  const result = useSyncExternalStore(results.subscribe, results.get);
  const assessment = result?.section === section && result.depth !== "quick" ? result.assessment : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is handed out follows the drawing, its units and its answer
  const handOut = useMemo(
    () => handOutOf(desk, results, choices, bought),
    [desk, results, choices, bought, section, units, assessment],
  );
  const refuse = (what: string) => (error: unknown) =>
    desk.say({ text: `${what} ${error instanceof Error ? error.message : String(error)}.`, tone: "refusal" });
  const say = (text: string): void => desk.say({ text, tone: "plain" });
  const [first] = handOut.sheets;
  return (
    <div className="hand-out">
      <Pictures sheets={handOut.sheets} />
      <p className="caution">
        {`1:${handOut.scale} on ${handOut.paper}`}
        {handOut.sheets.length > 1
          ? `, ${handOut.sheets.length} sheets: what the first has no room for stands on the next.`
          : "."}
      </p>
      <ChoiceField
        label="Paper"
        value={handOut.paper}
        options={Object.keys(sheetPapers).map((paper) => [paper, paper])}
        choose={(paper) => chooseHandOut({ paper: paper as PaperName })}
      />
      <ChoiceField
        label="Scale"
        value={String(handOut.scale)}
        options={handOut.scales.map((scale) => [String(scale), `1:${scale}`])}
        choose={(scale) => chooseHandOut({ scale: Number(scale) })}
      />
      <ChoiceField
        label="Colours"
        value={choices.colours}
        options={[
          ["print", "black on white"],
          ["paper", "as on the sheet"],
        ]}
        choose={(colours) => chooseHandOut({ colours: colours as Choices["colours"] })}
      />
      <ChoiceField
        label="Shows"
        value={choices.show}
        options={[
          ["sheet", "the sheet"],
          ...(handOut.moments.length > 0 ? ([["sequence", "moments of the power cut"]] as const) : []),
        ]}
        choose={(show) => chooseHandOut({ show: show as Choices["show"], scale: null })}
      />
      {choices.show === "sheet" && handOut.hasPrices ? (
        <ChoiceField
          label="Your prices"
          value={choices.prices}
          options={[
            ["printed", "beside what to buy"],
            ["left out", "left out"],
          ]}
          choose={(prices) => chooseHandOut({ prices: prices as Choices["prices"] })}
        />
      ) : null}
      {choices.show === "sequence" && handOut.moments.length > 0 ? <Moments handOut={handOut} /> : null}
      <footer>
        <button type="button" className="press" onClick={() => void saveSvg(desk, results)}>
          Save SVG
        </button>
        <button type="button" className="press" onClick={() => window.print()}>
          Print
        </button>
        <button
          type="button"
          className="word"
          title={handOut.sheets.length > 1 ? "The first sheet as a picture" : "The sheet as a picture"}
          onClick={() => {
            if (first)
              void copyPicture(first)
                .then(() => say("The picture can be pasted now."))
                .catch(refuse("The browser let no picture on to the clipboard; save the SVG in its place:"));
          }}
        >
          Copy picture
        </button>
        <button
          type="button"
          className="word"
          title="A link that holds the whole drawing; no server keeps it"
          onClick={() => void copyLink().then(say).catch(refuse("The browser let no link on to the clipboard:"))}
        >
          Copy link
        </button>
      </footer>
      <p className="caution">The SVG and the link hold the whole drawing: opened here, it can be changed again.</p>
    </div>
  );

  async function copyLink(): Promise<string> {
    const made = await fragmentOf(desk.get().section);
    if (!made.ok) return made.error;
    const { origin, pathname } = window.location;
    const link = `${origin === "null" ? "" : origin}${pathname}${made.value}`;
    if (!navigator.clipboard?.writeText) throw new Error("this browser has no way to copy text");
    await navigator.clipboard.writeText(link);
    return `The link can be pasted now: ${link.length.toLocaleString("en")} letters that hold the drawing. Who has it has the drawing as it is now.`;
  }
}

/** One to four of the moments at which something happens. */
function Moments({ handOut: { moments, shown } }: { readonly handOut: HandOut }): JSX.Element {
  const times = new Set(shown.map(({ time }) => time));
  const toggle = (time: number | null): void => {
    const next = new Set(times);
    if (!next.delete(time)) next.add(time);
    chooseHandOut({ moments: [...next], scale: null });
  };
  return (
    <fieldset className="moments">
      <legend>{`Moments, ${mostMoments} at most`}</legend>
      {moments.map(({ time, title }) => {
        const isOn = times.has(time);
        const isFixed = isOn ? times.size === 1 : times.size >= mostMoments;
        return (
          <label key={String(time)}>
            <input type="checkbox" checked={isOn} disabled={isFixed} onChange={() => toggle(time)} />
            {title}
          </label>
        );
      })}
    </fieldset>
  );
}

/** px of the longer side, about */
const shownLong = 390;

function Pictures({ sheets }: { readonly sheets: readonly PaintedSheet[] }): JSX.Element {
  const shown = sheets.slice(0, 3);
  // More than one lie wider than the slip: the row must be reached by keyboard, so that arrows move it along.
  const scrolls = shown.length > 1 ? { tabIndex: 0, "aria-label": "The sheets as they will be printed" } : {};
  return (
    <figure className="pictures" {...scrolls}>
      {shown.map((sheet, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the row
        <Picture key={i} sheet={sheet} name={`Sheet ${i + 1} of ${sheets.length} as it will be printed`} />
      ))}
    </figure>
  );
}

function Picture({ sheet, name }: { readonly sheet: PaintedSheet; readonly name: string }): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    // Painted twice as fine as it is shown: letters this small lose too much on whole pixels.
    const px = 2 * shownLong * window.devicePixelRatio;
    if (canvas.current) paintPicture(canvas.current, sheet, px / Math.max(sheet.width, sheet.height));
  }, [sheet]);
  return (
    <canvas ref={canvas} role="img" aria-label={name} className={sheet.width > sheet.height ? "lying" : "upright"} />
  );
}
