import type { Desk } from "../state/desk.ts";
import { openFile } from "../state/files/openFile.ts";
import { saveFile } from "../state/files/saveFile.ts";
import type { Commands } from "./commands.ts";

/** The commands that deal with files. */
export function makeCommands(desk: Desk): Omit<Commands, "fit" | "zoom" | "stride"> {
  const tell = (error: unknown): void =>
    desk.say({ text: `That did not work: ${error instanceof Error ? error.message : String(error)}`, tone: "refusal" });
  return {
    open: () => void openFile(desk).catch(tell),
    save: () => void saveFile(desk, false),
    saveAs: () => void saveFile(desk, true),
  };
}
