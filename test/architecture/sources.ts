/** The repository's own files as text, and what each imports: the ground for the tests in this folder. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix, relative, resolve, sep } from "node:path";

export const root = resolve(import.meta.dirname, "../..");

const ignored = readFileSync(join(root, ".gitignore"), "utf8")
  .split("\n")
  .filter((line) => line.endsWith("/"))
  .map((line) => line.slice(0, -1));
const skipped = new Set([".git", ...ignored]);

/** Every file that belongs to the repository, as a path from its root with forward slashes. */
export function filesOf(folder = ""): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .filter((entry) => !skipped.has(entry.name))
    .flatMap((entry) => {
      const path = join(root, folder, entry.name);
      const own = relative(root, path).split(sep).join("/");
      return entry.isDirectory() ? filesOf(own) : entry.isFile() ? [own] : [];
    });
}

export const textOf = (file: string): string => readFileSync(join(root, file), "utf8");

export const sourcesOf = (folder: string): string[] => filesOf(folder).filter((file) => /\.tsx?$/.test(file));

export interface Import {
  /** The file imported, from the root, or the package's name. */
  readonly target: string;
  readonly own: boolean;
  /** Only types: nothing is left of it when the program runs. */
  readonly typeOnly: boolean;
}

const statement =
  /\b(?:import|export)\s+(type\s)?[^;"'`]*?\bfrom\s*["']([^"']+)["']|\bimport\s*\(?\s*["']([^"']+)["']|\bnew URL\(\s*["'](\.[^"']+)["']\s*,\s*import\.meta\.url/g;

/** What a source imports, in any of the ways a module has: from, for its effect, on demand, as a worker. */
export function importsIn(file: string, text: string): Import[] {
  return [...withoutComments(text).matchAll(statement)].map((found) => {
    const named = (found[2] ?? found[3] ?? found[4]) as string;
    const own = named.startsWith(".");
    const target = own ? posix.join(dirname(file), named.replace(/\?.*$/, "")) : named;
    return { target, own, typeOnly: found[1] !== undefined };
  });
}

export const importsOf = (file: string): Import[] => importsIn(file, textOf(file));

// A string is matched first, so that the slashes in an address do not open a comment.
const stringOrComment = /("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|`(?:\\.|[^`\\])*`)|\/\*[\s\S]*?\*\/|\/\/[^\n]*/g;

export const withoutComments = (text: string): string =>
  text.replace(stringOrComment, (_, string: string | undefined) => string ?? " ");

/** The code alone: comments and text in quotes taken out, what stands in `${}` kept. */
export const codeOnly = (text: string): string =>
  text.replace(stringOrComment, (_, string: string | undefined) =>
    string?.startsWith("`") ? [...string.matchAll(/\$\{([^}]*)\}/g)].map((hole) => `;${hole[1]};`).join("") : '""',
  );
