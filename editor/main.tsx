/** Starts the program: letters first (a text measured in another face keeps its width), then the drawing that
 * lay on the desk last, or the example. */
import "@fontsource/barlow-semi-condensed/latin-400.css";
import "@fontsource/barlow-semi-condensed/latin-500.css";
import "@fontsource/barlow-semi-condensed/latin-600.css";
import "./sheet.css";
import { createRoot } from "react-dom/client";
import { readSectionValue } from "../hydraulics/index.ts";
import example from "../samples/courtyard-bog.json";
import { openLink, watchLink } from "./link/watchLink.ts";
import { keepForOffline } from "./offline/keepForOffline.ts";
import { printSheets } from "./panels/print.ts";
import { Sheet } from "./panels/Sheet.tsx";
import { ProgramContext } from "./panels/useDesk.ts";
import { createDesk } from "./state/desk.ts";
import { createKeeper } from "./state/drawings/keeper.ts";
import { openHere, rememberOpenHere } from "./state/drawings/openHere.ts";
import { openShelf } from "./state/drawings/shelf.ts";
import { emptySection } from "./state/emptySection.ts";
import { createResults } from "./worker/results.ts";

async function start(place: Element): Promise<void> {
  const letters = Promise.all(
    ["400", "500", "600"].map((weight) => document.fonts.load(`${weight} 14px "Barlow Semi Condensed"`, "A0+−")),
  );
  const desk = createDesk(() => performance.now(), emptySection, freshId);
  const keeper = createKeeper({
    desk,
    shelf: openShelf(),
    freshId,
    clock: () => Date.now(),
    remember: rememberOpenHere,
  });
  // A browser that keeps nothing (a private window) still draws.
  const restored = await keeper.restore(openHere()).catch(() => false);
  const first = readSectionValue(example);
  if (!restored && first.ok) desk.open(first.value, null);
  const night = window.matchMedia("(prefers-color-scheme: dark)");
  desk.look((view) => ({ ...view, theme: night.matches ? "night" : "paper" }));
  night.addEventListener("change", () => desk.look((view) => ({ ...view, theme: night.matches ? "night" : "paper" })));
  keeper.watch();
  const results = createResults();
  printSheets(desk, results);
  watchLink(desk);
  keepForOffline(desk);
  await Promise.all([letters, openLink(desk)]);
  createRoot(place).render(
    <ProgramContext value={{ desk, results, keeper }}>
      <Sheet isFirstStart={!restored && first.ok && desk.get().section === first.value} />
    </ProgramContext>,
  );
}

/** Not to be met again in any window: 96 random bits. */
const freshId = (): string => [...crypto.getRandomValues(new Uint32Array(3))].map((n) => n.toString(36)).join("-");

const place = document.querySelector("#sheet");
if (place) void start(place);
