/** The command line: reads a drawing, prints it as an SVG to hand out.
 *   npm run --silent draw -- FILE.json [--paper A4|A3|Letter] [--scale N] [--us] [--theme print|paper|night] [--date TEXT] > sheet.svg
 * Ends with 0, or with 2 where the file or the call can't be used (said on standard error). It looks at no clock: the
 * same call prints the same sheet. */
import { readFileSync, statSync } from "node:fs";
import { assess, most, type Problem, type Result } from "../../hydraulics/index.ts";
import { type PaletteName, palettes } from "../scene/palette.ts";
import { plainText } from "../scene/plainText.ts";
import { problemLine, readDrawing } from "../state/files/readDrawing.ts";
import { type PaperName, sheetPapers } from "./sheetPaper.ts";
import { largestScale, type SheetOptions, sheetSvg } from "./write.ts";

const usage = [
  "Use: npm run --silent draw -- FILE.json [switches] > sheet.svg",
  "  --paper    A4, A3 or Letter, lying; A4 unless said otherwise",
  "  --scale    the second number of the scale: 20 for 1:20; the largest usual one that fits unless said otherwise",
  "  --us       US customary units",
  "  --theme    print, paper or night; print unless said otherwise",
  "  --date     a date for the title block, such as 2026-05-01",
  "  --help     print this",
].join("\n");

interface Call {
  readonly file: string;
  readonly options: Pick<SheetOptions, "system" | "paper" | "scale" | "theme" | "date">;
}

function main(words: readonly string[]): 0 | 2 {
  if (words.includes("--help")) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  const call = readCall(words);
  if (!call.ok) return refuse(`${call.error}\n${usage}`);
  const { file, options } = call.value;
  const text = readText(file);
  if (!text.ok) return refuse(`${plainText(file)}: ${text.error}`);
  const section = readDrawing(text.value);
  if (!section.ok) return refuse(section.error.map((problem) => lineOf(file, problem)).join("\n"));
  const { running, powerCut, findings } = assess(section.value);
  const sheet: SheetOptions = { section: section.value, running, powerCut, findings, ...options };
  const largest = largestScale(sheet);
  if (options.scale !== undefined && options.scale < largest)
    return refuse(`at 1:${options.scale} the drawing does not fit on ${options.paper}; 1:${largest} does`);
  process.stdout.write(sheetSvg(sheet));
  return 0;
}

function readCall(words: readonly string[]): Result<Call, string> {
  const files: string[] = [];
  let options: Call["options"] = { system: "metric", paper: "A4", theme: "print" };
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    if (!word.startsWith("--")) {
      files.push(word);
      continue;
    }
    if (word === "--us") {
      options = { ...options, system: "us" };
      continue;
    }
    const read = readSwitch(word, words[++i]);
    if (!read.ok) return read;
    options = { ...options, ...read.value };
  }
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) return no(`expected one file, found ${files.length}`);
  return { ok: true, value: { file, options } };
}

function readSwitch(name: string, value: string | undefined): Result<Partial<Call["options"]>, string> {
  const found = value === undefined ? "nothing" : plainText(value).slice(0, 60);
  switch (name) {
    case "--paper":
      return value !== undefined && Object.hasOwn(sheetPapers, value)
        ? { ok: true, value: { paper: value as PaperName } }
        : no(`expected ${Object.keys(sheetPapers).join(", ")} after --paper, found ${found}`);
    case "--theme":
      return value !== undefined && Object.hasOwn(palettes, value)
        ? { ok: true, value: { theme: value as PaletteName } }
        : no(`expected ${Object.keys(palettes).join(", ")} after --theme, found ${found}`);
    case "--scale": {
      const scale = Number(value);
      return value !== undefined && /^[0-9]{1,6}$/.test(value) && scale >= 1
        ? { ok: true, value: { scale } }
        : no(`expected a whole number such as 20 (for 1:20) after --scale, found ${found}`);
    }
    case "--date":
      return value !== undefined && value.length <= 40
        ? { ok: true, value: { date: value } }
        : no(`expected a date of at most 40 letters after --date, found ${found}`);
    default:
      return no(`no switch is called ${plainText(name).slice(0, 60)}`);
  }
}

/** An SVG holds its picture besides the drawing. */
const greatest = 4 * most.fileSize;

function readText(file: string): Result<string, string> {
  try {
    const about = statSync(file);
    if (!about.isFile()) return no("expected a file, found something else of that name");
    if (about.size > greatest) return no(`expected a file of at most ${greatest / 1024 / 1024} MiB`);
    return { ok: true, value: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file)) };
  } catch (trouble) {
    const { code } = trouble as { code?: unknown };
    if (code === "ENOENT" || code === "ENOTDIR") return no("there is no such file");
    if (code === "EACCES") return no("it may not be read");
    if (code === "ERR_ENCODING_INVALID_ENCODED_DATA") return no("expected text in UTF-8, found other bytes");
    return no(`it could not be read (${plainText(String(trouble))})`);
  }
}

const no = (error: string): Result<never, string> => ({ ok: false, error });
const lineOf = (file: string, problem: Problem): string => plainText(`${file}: ${problemLine(problem)}`);

function refuse(message: string): 2 {
  process.stderr.write(`${message}\n`);
  return 2;
}

process.exitCode = main(process.argv.slice(2));
