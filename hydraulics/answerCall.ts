/** What the command line answers: what is to be said of a drawing. `check.ts` reads the file and prints. */
import { assess } from "./assess.ts";
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

export interface Answered {
  /** 0 where every vessel is held and nothing fails, 1 where something fails, 2 where the file or the call can't be used */
  readonly status: 0 | 1 | 2;
  /** for standard output */
  readonly out: string;
  /** for standard error */
  readonly err: string;
}

/** @param words those after the command's own name
 *  @param read gives the text of a file, or why it has none */
export function answerCall(words: readonly string[], read: (file: string) => Result<string, string>): Answered {
  const call = readCall(words);
  if (!call.ok) return refuse(`${call.error}\n${usage}`);
  if (call.value.given.has("--help")) return { status: 0, out: `${usage}\n`, err: "" };
  const [file, ...others] = call.value.files;
  if (file === undefined || others.length > 0)
    return refuse(`expected one file, found ${call.value.files.length}\n${usage}`);
  const text = read(file);
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
  const out = given.has("--json")
    ? `${plainJson(JSON.stringify(reportJson(drawing, assessment), null, 2))}\n`
    : (given.has("--page") ? reportPage : reportText)(drawing, assessment, { units });
  return { status: isSound(drawing, assessment) ? 0 : 1, out, err: "" };
}

/** The mended drawing on standard output, what was done on standard error. The first finding of the code that can be
 * mended counts. */
function mend(drawing: Section, code: string, units: UnitSystem): Answered {
  const section = named(drawing);
  const assessed = assess(section, { quick: true, starts: true });
  const findings = assessed.findings.filter((finding) => finding.code === code);
  if (findings.length === 0) return refuse(`there is no finding ${plain(code)} in this drawing`);
  for (const finding of findings) {
    const [first] = mendsFor(section, assessed, finding);
    if (!first) continue;
    return {
      status: 0,
      out: plainJson(writeSection(withoutGivenNames(first.section, drawing))),
      err: `${reportOf(section, units).says(`${first.label} (${first.sideEffect})`)}\n`,
    };
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

function problemLine(file: string, { path, expected, found }: Problem): string {
  return plain(`${file}${path === "" ? "" : `: ${path}`}: expected ${expected}; found ${found}`);
}

const refuse = (message: string): Answered => ({ status: 2, out: "", err: `${message}\n` });
