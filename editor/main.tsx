/** Starts the program: letters first (a text measured in another face keeps its width), then the drawing that
 * lay on the desk last, or the example. */
import "@fontsource/barlow-semi-condensed/latin-400.css";
import "@fontsource/barlow-semi-condensed/latin-500.css";
import "@fontsource/barlow-semi-condensed/latin-600.css";
import "./sheet.css";
import { createRoot } from "react-dom/client";
import { readSectionValue } from "../hydraulics/index.ts";
import example from "../samples/courtyard-bog.json";
import { Sheet } from "./panels/Sheet.tsx";
import { ProgramContext } from "./panels/useDesk.ts";
import { createDesk, type Desk } from "./state/desk.ts";
import { keepDrawing, restoreDrawing } from "./state/files/autosave.ts";
import { createResults } from "./worker/results.ts";

async function start(place: Element): Promise<void> {
  const letters = Promise.all(
    ["400", "500", "600"].map((weight) => document.fonts.load(`${weight} 14px "Barlow Semi Condensed"`, "A0+−")),
  );
  const desk = createDesk(() => performance.now());
  // A browser that keeps nothing (a private window) still draws.
  const kept = await restoreDrawing().catch(() => null);
  const first = readSectionValue(example);
  if (kept) desk.open(kept.section, null);
  else if (first.ok) desk.open(first.value, null);
  const night = window.matchMedia("(prefers-color-scheme: dark)");
  desk.look((view) => ({ ...view, theme: night.matches ? "night" : "paper" }));
  night.addEventListener("change", () => desk.look((view) => ({ ...view, theme: night.matches ? "night" : "paper" })));
  keepOnDesk(desk);
  await letters;
  createRoot(place).render(
    <ProgramContext value={{ desk, results: createResults() }}>
      <Sheet />
    </ProgramContext>,
  );
}

/** Writes the drawing down whenever it has become another one: at once, and while one write is under way the
 * newest follows it. */
function keepOnDesk(desk: Desk): void {
  let kept = desk.get().section;
  let writing = false;
  const keep = async (): Promise<void> => {
    const { section, file } = desk.get();
    if (writing || section === kept) return;
    writing = true;
    kept = section;
    try {
      await keepDrawing(section, file?.name ?? null);
    } catch (error) {
      desk.say({
        text: `The browser does not keep the drawing (${error instanceof Error ? error.message : String(error)}). Save it to a file.`,
        tone: "refusal",
      });
    }
    writing = false;
    void keep();
  };
  desk.subscribe(() => void keep());
}

const place = document.querySelector("#sheet");
if (place) void start(place);
