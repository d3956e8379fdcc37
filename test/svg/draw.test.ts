/** The command line that draws, as its user meets it: spawned, with files on disk. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readDrawing } from "../../editor/state/files/readDrawing.ts";
import { before, momentAt, tellingMoments } from "../../editor/svg/moments.ts";
import { sequenceSvg } from "../../editor/svg/sequence.ts";
import { sheetSvg } from "../../editor/svg/write.ts";
import { assess, readSection, type Section } from "../../hydraulics/index.ts";
import { parseXml } from "../support/xml.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const courtyard = join(root, "test/scenarios/design/courtyard.json");
let folder = "";

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "holdwater-"));
  await build({
    entryPoints: [join(root, "editor/svg/draw.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile: join(folder, "draw.mjs"),
    logLevel: "error",
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function draw(...words: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, "draw.mjs"), ...words], {
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  return { status, stdout, stderr };
}

function fileOf(content: string | Uint8Array): string {
  const file = join(folder, "drawing.json");
  writeFileSync(file, content);
  return file;
}

const empty = '{"format":"holdwater-section","version":1,"title":"Empty","site":{},"parts":[]}';

function drawn(): Section {
  const read = readSection(readFileSync(courtyard, "utf8"));
  if (!read.ok) throw new Error("the courtyard can't be read");
  return read.value;
}

test("prints, byte for byte, what the editor saves, and ends with 0", { timeout: 30_000 }, () => {
  const { running, powerCut, findings } = assess(drawn());
  const saved = sheetSvg({
    section: drawn(),
    running,
    powerCut,
    findings,
    system: "metric",
    paper: "A4",
    theme: "print",
    date: "2026-05-01",
  });

  const { status, stdout, stderr } = draw(courtyard, "--date", "2026-05-01");

  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toBe(saved);
  expect(readDrawing(stdout)).toEqual({ ok: true, value: drawn() });
});

test("draws a sheet anew from a sheet, without a date where none is given", { timeout: 30_000 }, () => {
  const first = draw(courtyard).stdout;

  const again = draw(fileOf(first));

  expect(again.status).toBe(0);
  expect(again.stdout).toBe(first);
  expect(first).not.toMatch(/20\d\d-\d\d-\d\d/);
});

test("paper, units, scale and theme are as asked", { timeout: 30_000 }, () => {
  const { status, stdout } = draw(courtyard, "--paper", "Letter", "--us", "--scale", "100", "--theme", "night");

  expect(status).toBe(0);
  expect(parseXml(stdout).attributes.get("width")).toBe("279.4mm");
  expect(stdout).toMatch(/1:100 on Letter/);
  expect(stdout).toMatch(/\d gph/);
});

test("draws the sequence of a power cut, as the editor does", () => {
  const lowBreather = join(root, "test/scenarios/design/low-breather.json");
  const read = readSection(readFileSync(lowBreather, "utf8"));
  if (!read.ok) throw new Error("the drawing can't be read");
  const { running, powerCut, findings } = assess(read.value);
  if (!powerCut) throw new Error("no power cut was followed");
  const options = {
    section: read.value,
    running,
    powerCut,
    findings,
    system: "metric",
    paper: "A4",
    theme: "print",
  } as const;

  expect(draw(lowBreather, "--sequence").stdout).toBe(sequenceSvg({ ...options, moments: tellingMoments(powerCut) }));
  expect(draw(lowBreather, "--moments", "before,30,rest").stdout).toBe(
    sequenceSvg({
      ...options,
      moments: [before, momentAt(powerCut, 30), momentAt(powerCut, Number.POSITIVE_INFINITY)],
    }),
  );
}, 60_000);

test.each<[string, () => readonly string[], RegExp]>([
  ["no file", () => [], /expected one file, found 0/],
  ["two files", () => [courtyard, courtyard], /expected one file, found 2/],
  ["a file that is not there", () => [join(folder, "none.json")], /there is no such file/],
  ["a folder", () => [folder], /expected a file/],
  ["broken JSON", () => [fileOf('{"format": ')], /drawing\.json: /],
  ["bytes that are no text", () => [fileOf(Uint8Array.of(0xff, 0xfe, 0x00))], /UTF-8/],
  ["a drawing of another version", () => [fileOf('{"format":"holdwater-section","version":99}')], /version: expected/],
  ["an SVG without a drawing", () => [fileOf("<svg/>")], /holds no drawing/],
  ["an unknown switch", () => [courtyard, "--colour"], /no switch is called --colour/],
  ["an unknown paper", () => [courtyard, "--paper", "constructor"], /expected A4, A3, Letter after --paper/],
  ["a switch without its word", () => [courtyard, "--scale"], /found nothing/],
  ["a scale of nothing", () => [courtyard, "--scale", "0"], /expected a whole number/],
  [
    "a sheet that is not there",
    () => [courtyard, "--sheet", "9"],
    /expected a sheet from 1 to \d after --sheet, found 9/,
  ],
  ["five moments", () => [courtyard, "--moments", "before,1,2,3,rest"], /expected up to 4 moments/],
  ["moments of no kind", () => [courtyard, "--moments", "soon"], /expected up to 4 moments.*found soon/],
  ["a sequence of a drawing in which nothing moves", () => [fileOf(empty), "--sequence"], /nothing moves/],
  ["a scale too large for the paper", () => [courtyard, "--scale", "2"], /does not fit on A4; 1:\d+ does/],
])("%s ends with 2, says why, and prints no sheet", (_, words, said) => {
  const { status, stdout, stderr } = draw(...words());

  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
  expect(stderr).toMatch(said);
});
