/** The command line: reads a drawing, prints what is to be said of it.
 *   npm run --silent check -- FILE.json [--json] [--page] [--us] [--mend CODE]
 * Ends with 0 where every vessel is held and nothing fails, 1 where something fails, 2 where the file or the
 * call can't be used (said on standard error). The only file of the library that prints or touches files. */
import { readFileSync, statSync } from "node:fs";
import { answerCall } from "./answerCall.ts";
import { most } from "./document/limits.ts";
import type { Result } from "./document/section.ts";
import { plain } from "./report/plain.ts";

/** The text of a file, in UTF-8. Its size is looked at before it is read. */
function readText(file: string): Result<string, string> {
  try {
    const about = statSync(file);
    if (!about.isFile()) return { ok: false, error: "expected a file, found something else of that name" };
    if (about.size > most.fileSize)
      return {
        ok: false,
        error: `expected a file of at most ${most.fileSize / 1024 / 1024} MiB, found ${(about.size / 1024 / 1024).toFixed(1)} MiB`,
      };
    return { ok: true, value: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file)) };
  } catch (trouble) {
    return { ok: false, error: readTrouble(trouble) };
  }
}

const systemTroubles: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "it may not be read",
  ENOTDIR: "there is no such file",
  ERR_ENCODING_INVALID_ENCODED_DATA: "expected text in UTF-8, found other bytes",
};

function readTrouble(trouble: unknown): string {
  const { code } = trouble as { code?: unknown };
  const known = typeof code === "string" ? systemTroubles[code] : undefined;
  return known ?? `it could not be read (${plain(String(trouble))})`;
}

// Who reads on, such as `head`, may have read enough: the rest is left unsaid, and the answer stays what it is.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
const { status, out, err } = answerCall(process.argv.slice(2), readText);
process.stdout.write(out);
process.stderr.write(err);
process.exitCode = status;
