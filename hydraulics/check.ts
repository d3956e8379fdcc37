/** The command line: reads a drawing, prints what is to be said of it.
 *   npm run --silent check -- FILE.json [--json] [--page] [--us] [--mend CODE]
 * Ends with 0 where every vessel is held and nothing fails, 1 where something fails, 2 where the file or the
 * call can't be used (said on standard error). The only file of the library that prints or touches files. */
import { readFileSync, statSync } from "node:fs";
import { assess } from "./assess.ts";
import { most } from "./document/limits.ts";
import { named, withoutGivenNames } from "./document/named.ts";
import { readSection } from "./document/read.ts";
import type { Problem, Result, Section } from "./document/section.ts";
import { writeSection } from "./document/write.ts";
import { mendsFor, whyNoMend } from "./mends/index.ts";
import type { UnitSystem } from "./report/formats.ts";
import { reportJson } from "./report/json.ts";
import { reportOf } from "./report/of.ts";
import { reportPage } from "./report/page.ts";
import { plain, plainJson } from "./report/plain.ts";
import { reportText } from "./report/text.ts";
import { isSound } from "./report/verdict.ts";

interface SwitchWords {
  readonly says: string;
  /** what the word after it is, where it takes one */
  readonly word?: string;
}

/** The switches that the call may hold. A new one is a line here and its use in `main`. */
const switches = {
  "--json": { says: "print one JSON object, SI units" },
  "--page": { says: "print a page of HTML, to be printed or read in a browser" },
  "--us": { says: "print US customary units" },
  "--mend": { says: "print the drawing with the first finding of that code mended", word: "the code of a finding" },
  "--help": { says: "print this" },
} as const satisfies Record<string, SwitchWords>;

type Switch = keyof typeof switches;
interface Call {
  readonly files: readonly string[];
  readonly given: ReadonlyMap<Switch, string>;
}

const usage = [
  "Use: npm run --silent check -- FILE.json [switches]",
  ...Object.entries(switches).map(([name, { says }]) => `  ${name.padEnd(10)} ${says}`),
].join("\n");

function main(words: readonly string[]): 0 | 1 | 2 {
  const call = readCall(words);
  if (!call.ok) return refuse(`${call.error}\n${usage}`);
  if (call.value.given.has("--help")) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  const [file, ...others] = call.value.files;
  if (file === undefined || others.length > 0)
    return refuse(`expected one file, found ${call.value.files.length}\n${usage}`);
  const text = readText(file);
  if (!text.ok) return refuse(`${plain(file)}: ${text.error}`);
  const section = readSection(text.value);
  if (!section.ok) return refuse(section.error.map((problem) => problemLine(file, problem)).join("\n"));
  const { given } = call.value;
  const code = given.get("--mend");
  const units = given.has("--us") ? "us" : "metric";
  if (code !== undefined) return mend(section.value, code, units);
  // A program finds parts by their ids, a person by their names.
  const drawing = given.has("--json") ? section.value : named(section.value);
  const assessment = assess(drawing, { faults: true });
  process.stdout.write(
    given.has("--json")
      ? `${plainJson(JSON.stringify(reportJson(drawing, assessment), null, 2))}\n`
      : (given.has("--page") ? reportPage : reportText)(drawing, assessment, { units }),
  );
  return isSound(drawing, assessment) ? 0 : 1;
}

/** The mended drawing on standard output, what was done on standard error. The first finding of the code that can be
 * mended counts. */
function mend(drawing: Section, code: string, units: UnitSystem): 0 | 2 {
  const section = named(drawing);
  const assessed = assess(section, { quick: true, starts: true });
  const findings = assessed.findings.filter((finding) => finding.code === code);
  if (findings.length === 0) return refuse(`there is no finding ${plain(code)} in this drawing`);
  for (const finding of findings) {
    const [first] = mendsFor(section, assessed, finding);
    if (!first) continue;
    process.stdout.write(plainJson(writeSection(withoutGivenNames(first.section, drawing))));
    process.stderr.write(reportOf(section, units).says(`${first.label} (${first.sideEffect})`));
    process.stderr.write("\n");
    return 0;
  }
  return refuse(
    whyNoMend(code) ??
      `no change was found that mends ${plain(code)} and brings nothing worse; what to do: ${findings.map(({ remedy }) => reportOf(section, units).says(remedy)).join(" ")}`,
  );
}

function readCall(words: readonly string[]): Result<Call, string> {
  const files: string[] = [];
  const given = new Map<Switch, string>();
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    if (!word.startsWith("--")) {
      files.push(word);
      continue;
    }
    if (!isSwitch(word)) return { ok: false, error: `no switch is called ${plain(word)}` };
    const { word: wanted }: SwitchWords = switches[word];
    const value = wanted === undefined ? "" : words[++i];
    if (value === undefined) return { ok: false, error: `expected ${wanted} after ${word}` };
    given.set(word, value);
  }
  return { ok: true, value: { files, given } };
}

const isSwitch = (word: string): word is Switch => Object.hasOwn(switches, word);

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

function problemLine(file: string, { path, expected, found }: Problem): string {
  return plain(`${file}${path === "" ? "" : `: ${path}`}: expected ${expected}; found ${found}`);
}

function refuse(message: string): 2 {
  process.stderr.write(`${message}\n`);
  return 2;
}

// Who reads on, such as `head`, may have read enough: the rest is left unsaid, and the answer stays what it is.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
process.exitCode = main(process.argv.slice(2));
