/** Reads JSON (RFC 8259) and says where it goes wrong.
 *
 * Not `JSON.parse`: its messages differ between engines and mostly give no line, it takes the last of two
 * fields of one name without a word, and it has no bound on nesting. Accepts what `JSON.parse` accepts and gives
 * the same values (test/document/parseJson.test.ts compares them), but for those two, which are problems here.
 * One leading byte order mark is skipped, because some editors write one. */
import { most } from "../limits.ts";
import type { Problem, Result } from "../section.ts";
import { inside, type Place, pathOf } from "./place.ts";

export function parseJson(text: string): Result<unknown, readonly Problem[]> {
  const reader = new JsonReader(text);
  try {
    const value = reader.file();
    return reader.twice.length === 0 ? { ok: true, value } : { ok: false, error: reader.twice };
  } catch (trouble) {
    // Thrown inside the reader only, to leave its recursion; a value again from here on.
    if (trouble instanceof NotJson) return { ok: false, error: [trouble.problem, ...reader.twice] };
    throw trouble;
  }
}

class NotJson extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.expected);
    this.problem = problem;
  }
}

const escapes: Readonly<Record<string, string>> = {
  '"': '"',
  "\\": "\\",
  "/": "/",
  b: "\b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
};
const numberPattern = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;

class JsonReader {
  readonly twice: Problem[] = [];
  private at = 0;
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
    if (text.charCodeAt(0) === 0xfeff) this.at = 1;
  }

  file(): unknown {
    const value = this.value(null, 0);
    this.space();
    if (this.at < this.text.length) this.fail(null, "the end of the file");
    return value;
  }

  private value(place: Place | null, depth: number): unknown {
    if (depth > most.nesting) this.fail(place, `lists and objects at most ${most.nesting} deep in each other`);
    this.space();
    const start = this.text[this.at];
    if (start === "{") return this.object(place, depth);
    if (start === "[") return this.list(place, depth);
    if (start === '"') return this.string(place);
    if (this.word("true")) return true;
    if (this.word("false")) return false;
    if (this.word("null")) return null;
    return this.number(place);
  }

  private object(place: Place | null, depth: number): Record<string, unknown> {
    const read: Record<string, unknown> = {};
    this.at++;
    this.space();
    if (this.skip("}")) return read;
    for (;;) {
      this.space();
      const start = this.at;
      if (this.text[start] !== '"') this.fail(place, "a field's name in double quotes");
      const name = this.string(place);
      const field = inside(place, name);
      if (Object.hasOwn(read, name) && this.twice.length < most.problems) {
        this.twice.push({
          path: pathOf(field),
          expected: "each field once",
          found: `the field again at ${this.where(start)}`,
        });
      }
      this.space();
      if (!this.skip(":")) this.fail(field, '":" after the field\'s name');
      const value = this.value(field, depth + 1);
      // As an own field, whatever it is called: `read["__proto__"] = …` would set a prototype.
      if (name === "__proto__")
        Object.defineProperty(read, name, { value, enumerable: true, configurable: true, writable: true });
      else read[name] = value;
      this.space();
      if (this.skip("}")) return read;
      if (!this.skip(",")) this.fail(field, '"," or "}" after the field');
    }
  }

  private list(place: Place | null, depth: number): unknown[] {
    const read: unknown[] = [];
    this.at++;
    this.space();
    if (this.skip("]")) return read;
    for (;;) {
      const member = inside(place, read.length);
      read.push(this.value(member, depth + 1));
      this.space();
      if (this.skip("]")) return read;
      if (!this.skip(",")) this.fail(member, '"," or "]" after the member');
    }
  }

  private string(place: Place | null): string {
    let read = "";
    let from = ++this.at;
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code === 0x22) {
        read += this.text.slice(from, this.at++);
        return read;
      }
      if (code === 0x5c) {
        read += this.text.slice(from, this.at) + this.escape(place);
        from = this.at;
      } else if (code >= 0x20) this.at++;
      else this.fail(place, "a closing double quote on the same line"); // NaN at the end of the file comes here too
    }
  }

  private escape(place: Place | null): string {
    const letter = this.text[++this.at];
    const simple = letter === undefined ? undefined : escapes[letter];
    if (simple !== undefined) {
      this.at++;
      return simple;
    }
    const digits = this.text.slice(this.at + 1, this.at + 5);
    if (letter !== "u" || !/^[0-9a-fA-F]{4}$/.test(digits)) this.fail(place, "a known escape after the backslash");
    this.at += 5;
    return String.fromCharCode(Number.parseInt(digits, 16));
  }

  private number(place: Place | null): number {
    numberPattern.lastIndex = this.at;
    const found = numberPattern.exec(this.text);
    if (!found) this.fail(place, "a value: text in double quotes, a number, true, false, null, a list or an object");
    this.at += found[0].length;
    return Number(found[0]);
  }

  private space(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) return;
      this.at++;
    }
  }

  private skip(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at++;
    return true;
  }

  private word(word: string): boolean {
    if (!this.text.startsWith(word, this.at)) return false;
    this.at += word.length;
    return true;
  }

  private where(at: number): string {
    const before = this.text.slice(0, at);
    const start = before.lastIndexOf("\n") + 1;
    const bom = start === 0 && before.charCodeAt(0) === 0xfeff ? 1 : 0;
    let line = 1;
    for (let i = before.indexOf("\n"); i >= 0; i = before.indexOf("\n", i + 1)) line++;
    return `line ${line}, column ${at - start - bom + 1}`;
  }

  private fail(place: Place | null, expected: string): never {
    const next = String.fromCodePoint(this.text.codePointAt(this.at) ?? 0);
    const found = this.at >= this.text.length ? "the end of the file" : JSON.stringify(next);
    throw new NotJson({ path: pathOf(place), expected, found: `${found} at ${this.where(this.at)}` });
  }
}
