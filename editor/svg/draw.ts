/** The command line: reads a drawing, prints it as an SVG to hand out.
 *   npm run --silent draw -- FILE.json [--paper A4|A3|Letter] [--scale N] [--us] [--theme print|paper|night]
 *     [--date TEXT] [--sheet N] [--sequence] [--moments LIST] > sheet.svg
 * Ends with 0, or with 2 where the file or the call can't be used (said on standard error). It looks at no clock: the
 * same call prints the same sheet. */
import { readFileSync, statSync } from "node:fs";
import { assess, most, type Problem, type Result } from "../../hydraulics/index.ts";
import { type PaletteName, palettes } from "../scene/palette.ts";
import { plainText } from "../scene/plainText.ts";
import { problemLine, readDrawing } from "../state/files/readDrawing.ts";
import { before, hasMoments, momentAt, mostMoments, tellingMoments } from "./moments.ts";
import { largestSequenceScale, type SequenceOptions, sequenceSvg } from "./sequence.ts";
import { type PaperName, sheetPapers } from "./sheetPaper.ts";
import { largestScale, type SheetOptions, sheetSvg, sheetsOf } from "./write.ts";

const usage = [
  "Use: npm run --silent draw -- FILE.json [switches] > sheet.svg",
  "  --paper    A4, A3 or Letter, lying; A4 unless said otherwise",
  "  --scale    the second number of the scale: 20 for 1:20; the largest usual one that fits unless said otherwise",
  "  --us       US customary units",
  "  --theme    print, paper or night; print unless said otherwise",
  "  --date     a date for the title block, such as 2026-05-01",
  "  --sheet    one sheet alone, by its number, where the tables need more than one; all of them unless said otherwise",
  "  --sequence the power cut on one sheet: before it, when it is decided, at rest",
  "  --moments  the same at moments of your own, up to four: before, rest, or seconds, such as before,30,600,rest",
  "  --help     print this",
].join("\n");

type Options = Pick<SheetOptions, "system" | "paper" | "scale" | "theme" | "date"> & {
  /** which sheet, from 1; absent: all */
  readonly only?: number;
  /** the moments of a sequence, or those that tell most; absent: the sheet itself */
  readonly sequence?: "telling" | readonly (number | "before" | "rest")[];
};

interface Call {
  readonly file: string;
  readonly options: Options;
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
  const { only, sequence, ...looks } = options;
  const { running, powerCut, findings } = assess(section.value);
  const sheet: SheetOptions = { section: section.value, running, powerCut, findings, ...looks };
  const drawn = sequence === undefined ? drawSheets(sheet, only) : drawSequence(sheet, sequence);
  if (!drawn.ok) return refuse(`${plainText(file)}: ${drawn.error}`);
  process.stdout.write(drawn.value);
  return 0;
}

function drawSheets(sheet: SheetOptions, only: number | undefined): Result<string, string> {
  const small = tooSmall(sheet, largestScale(sheet));
  if (small !== null) return no(small);
  const count = only === undefined ? 0 : sheetsOf(sheet).length;
  if (only !== undefined && only > count) return no(`expected a sheet from 1 to ${count} after --sheet, found ${only}`);
  return { ok: true, value: sheetSvg(sheet, only) };
}

function drawSequence(sheet: SheetOptions, asked: NonNullable<Options["sequence"]>): Result<string, string> {
  const { powerCut } = sheet;
  if (!hasMoments(powerCut)) return no("nothing moves when the power fails, so there is no sequence to draw");
  const moments =
    asked === "telling"
      ? tellingMoments(powerCut)
      : asked.map((each) => (each === "before" ? before : momentAt(powerCut, each === "rest" ? Infinity : each)));
  const options: SequenceOptions = { ...sheet, moments };
  const small = tooSmall(sheet, largestSequenceScale(options));
  return small === null ? { ok: true, value: sequenceSvg(options) } : no(small);
}

const tooSmall = ({ scale, paper }: SheetOptions, largest: number): string | null =>
  scale !== undefined && scale < largest
    ? `at 1:${scale} the drawing does not fit on ${paper}; 1:${largest} does`
    : null;

function readCall(words: readonly string[]): Result<Call, string> {
  const files: string[] = [];
  let options: Options = { system: "metric", paper: "A4", theme: "print" };
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
    if (word === "--sequence") {
      options = { sequence: "telling", ...options };
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

function readSwitch(name: string, value: string | undefined): Result<Partial<Options>, string> {
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
    case "--sheet": {
      const only = Number(value);
      return value !== undefined && /^[0-9]{1,4}$/.test(value) && only >= 1
        ? { ok: true, value: { only } }
        : no(`expected the number of a sheet after --sheet, found ${found}`);
    }
    case "--moments":
      return readMoments(value, found);
    default:
      return no(`no switch is called ${plainText(name).slice(0, 60)}`);
  }
}

function readMoments(value: string | undefined, found: string): Result<Partial<Options>, string> {
  const words = (value ?? "").split(",");
  const isMoment = (word: string): boolean =>
    word === "before" || word === "rest" || /^[0-9]{1,7}(\.[0-9]{1,3})?$/.test(word);
  if (words.length > mostMoments || !words.every(isMoment))
    return no(`expected up to ${mostMoments} moments such as before,30,600,rest after --moments, found ${found}`);
  const sequence = words.map((word) => (word === "before" || word === "rest" ? word : Number(word)));
  return { ok: true, value: { sequence } };
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

// Who reads on, such as `head`, may have read enough: the rest is left unsaid, and the answer stays what it is.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
process.exitCode = main(process.argv.slice(2));
