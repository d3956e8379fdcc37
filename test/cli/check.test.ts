/** The command line as its user meets it, with files on disk: spawned for what is read and refused, for each way to end and
 * for both streams, else asked in this process, which is as good and takes a tenth of the time. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { answerCall } from "../../hydraulics/answerCall.ts";
import { readSection } from "../../hydraulics/document/read.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
let folder = "";

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "holdwater-"));
  await build({
    entryPoints: [join(root, "hydraulics/check.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile: join(folder, "check.mjs"),
    logLevel: "error",
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function spawned(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, "check.mjs"), ...words], {
    encoding: "utf8",
  });
  return { status, stdout, stderr };
}

function check(...words: string[]) {
  const { status, out, err } = answerCall(words, (file) => ({ ok: true, value: readFileSync(file, "utf8") }));
  return { status, stdout: out, stderr: err };
}

function fileOf(content: string | Uint8Array): string {
  const file = join(folder, "drawing.json");
  writeFileSync(file, content);
  return file;
}

const sample = (name: string): string => join(root, "samples", `${name}.json`);
const design = (name: string): string => join(root, "test/scenarios/design", `${name}.json`);

type Json = Record<string, unknown>;
const readSample = (): { title: string; parts: Json[] } & Json =>
  JSON.parse(readFileSync(sample("courtyard-bog"), "utf8"));

/** The courtyard sample with a change made to it. */
function changed(change: (drawing: ReturnType<typeof readSample>) => void): string {
  const drawing = readSample();
  change(drawing);
  return fileOf(JSON.stringify(drawing));
}
const partOf = (drawing: { parts: Json[] }, id: string): Json => {
  const part = drawing.parts.find((each) => each.id === id);
  if (!part) throw new Error(`no part ${id}`);
  return part;
};

describe("a file that can't be used ends with 2 and says why on standard error", () => {
  const cases: readonly [string, () => string, readonly string[]][] = [
    ["broken JSON", () => fileOf('{\n "format": "holdwater-section",\n "version": 1,,\n'), ["line 3, column 15"]],
    ["an empty file", () => fileOf(""), ["end of the file", "line 1, column 1"]],
    ["bytes that are no text", () => fileOf(new Uint8Array([0x7b, 0xff, 0xfe, 0x7d])), ["UTF-8"]],
    ["more than 16 MiB", () => fileOf(" ".repeat(16 * 1024 * 1024 + 1)), ["at most 16 MiB"]],
    ["another version", () => changed((drawing) => (drawing.version = 2)), ["version", "expected 1", "found 2"]],
    [
      "another format",
      () => changed((drawing) => (drawing.format = "sheet")),
      ["format", "holdwater-section", "sheet"],
    ],
    [
      "an unknown field",
      () => changed((drawing) => (partOf(drawing, "bog").colour = "green")),
      ["parts[1].colour", "no such field"],
    ],
    [
      "an unknown kind",
      () => changed((drawing) => (partOf(drawing, "bog").kind = "fountain")),
      ["parts[1].kind", "fountain"],
    ],
    [
      "a number out of range",
      () => changed((drawing) => (partOf(drawing, "return").bore = 70.6)),
      ["parts[5].bore", "0.001 to 2 m", "70.6"],
    ],
    [
      "two parts of one id",
      () => changed((drawing) => (partOf(drawing, "lesson").id = "pond")),
      ["parts[8].id", "of its own"],
    ],
    [
      "a pipe to a part that does not exist",
      () => changed((drawing) => (partOf(drawing, "return").to = { part: "lake", x: 1, z: 0, mouth: "down" })),
      ["parts[5].to.part", "lake"],
    ],
    [
      "a route of no length",
      () =>
        changed((drawing) =>
          Object.assign(partOf(drawing, "flush"), {
            from: { open: true, x: 1, z: 1 },
            to: { open: true, x: 1, z: 1 },
            route: [],
          }),
        ),
      ["parts[6].route"],
    ],
  ];

  it.each(cases)("%s", (_, file, words) => {
    const { status, stdout, stderr } = spawned(file());

    expect(status).toBe(2);
    expect(stdout).toBe("");
    for (const word of words) expect(stderr).toContain(word);
  });

  it("a file that is not there, and a folder", () => {
    expect(spawned(join(folder, "none.json"))).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("no such file"),
    });
    expect(spawned(folder)).toMatchObject({ status: 2, stderr: expect.stringContaining("expected a file") });
  });

  it("no file, two files, and a switch that does not exist", () => {
    expect(spawned()).toMatchObject({ status: 2, stderr: expect.stringContaining("FILE.json") });
    expect(spawned(sample("courtyard-bog"), sample("pump-pit"))).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("found 2"),
    });
    expect(spawned(sample("courtyard-bog"), "--jsno")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("--jsno"),
    });
  });

  it("all problems at once, each on a line of its own", () => {
    const file = changed((drawing) => {
      partOf(drawing, "pond").width = "wide";
      partOf(drawing, "breather").bore = -1;
      partOf(drawing, "flush-valve").open = 2;
    });

    const lines = spawned(file).stderr.trim().split("\n");

    expect(lines).toHaveLength(3);
    expect(lines.join("\n")).toMatch(/parts\[0\]\.width[^\n]*\n[^\n]*parts\[4\]\.bore[^\n]*\n[^\n]*parts\[7\]\.open/);
  });

  it("a text that would command the terminal is shown without its commands", () => {
    const { stderr } = spawned(changed((drawing) => (partOf(drawing, "pond").kind = "\u001b[31m\u009b2J")));

    for (const control of ["\u001b", "\u009b"]) expect(stderr).not.toContain(control);
  });
});

describe("a drawing that opens", () => {
  it("ends with 0 and the verdict first where every vessel is held", () => {
    const { status, stdout, stderr } = spawned(sample("courtyard-bog"));

    expect(stderr).toBe("");
    expect(stdout).toMatch(/^Courtyard bog filter\n\nHELD: /);
    expect(status).toBe(0);
  });

  it.each(["low-breather", "pinhole-breather"])("ends with 1 where a vessel drains: %s", (name) => {
    const { status, stdout } = spawned(design(name));

    expect(stdout).toMatch(/^[^\n]+\n\nDRAINS: /);
    expect(status).toBe(1);
  });

  it.each(["thin-return", "mill-pair"])(
    "ends with 1 where all vessels are held and something else fails: %s",
    (name) => {
      const { status, stdout } = check(design(name));

      expect(stdout).toMatch(/^[^\n]+\n\nFAILS: /);
      expect(status).toBe(1);
    },
  );

  it("prints one JSON object, finite throughout, with the keys of the format", () => {
    const { status, stdout } = check(sample("courtyard-bog"), "--json");
    const report = JSON.parse(stdout);

    expect(status).toBe(0);
    expect(report).toMatchObject({ format: "holdwater-report", version: 1, title: "Courtyard bog filter" });
    expect(Object.keys(report.running.pumps.pump)).toEqual(
      expect.arrayContaining(["flow", "head", "hydraulicPower", "flowRange"]),
    );
    expect(Object.keys(report.running.pipes)).toEqual(["supply", "return", "flush"]);
    expect(Object.keys(report.running.pipes.supply)).toEqual(
      expect.arrayContaining([
        "flow",
        "velocity",
        "reynolds",
        "regime",
        "frictionLoss",
        "fittingLoss",
        "lossPerMetre",
        "otherFormulaLoss",
        "lowestPressureHead",
        "highestPressureHead",
      ]),
    );
    expect(Object.keys(report.running.vessels.bog)).toEqual(
      expect.arrayContaining([
        "level",
        "freeboard",
        "overtops",
        "returnCapacity",
        "returnMargin",
        "control",
        "upflow",
        "mediaLoss",
        "waterVolume",
      ]),
    );
    expect(Object.keys(report.running.vents.breather)).toEqual(
      expect.arrayContaining(["pressureHead", "state", "spill", "air"]),
    );
    expect(Object.keys(report.running.ponds.pond)).toEqual(
      expect.arrayContaining(["level", "volume", "netInflow", "lossToGround"]),
    );
    expect(report.powerCut).toMatchObject({
      settled: true,
      vessels: { bog: { verdict: "held", heldBy: "geometry" } },
      vents: { breather: { rating: "ample" } },
    });
    expect(Object.keys(report.powerCut.ponds.pond)).toEqual(
      expect.arrayContaining(["startLevel", "finalLevel", "highestLevel", "overflows"]),
    );
    expect(Object.keys(report.startUp.ponds.pond)).toEqual(
      expect.arrayContaining(["startLevel", "lowestLevel", "highestLevel", "finalLevel", "litresLent"]),
    );
    // The vessel starts at its base and its outlet runs within the half hour;
    // after the cut it is full and runs at once.
    const [first, again] = [report.startUp.vessels.bog, report.restart.vessels.bog];
    expect(first.timeToReturn).toBeGreaterThan(again.timeToReturn);
    expect(report.startUp.pumpsDry).toEqual({});
    expect(report.restart.failedAt).toBeNull();
    expect(stdout).not.toMatch(/NaN|Infinity/);
  });

  it("says how far the pond falls at the first start, and when the outlet runs", () => {
    const { stdout } = check(sample("courtyard-bog"));
    const start = stdout.slice(
      stdout.indexOf("First start, every vessel empty"),
      stdout.indexOf("Start after the power"),
    );

    expect(start).toMatch(/lends +outlet runs after/);
    expect(start).toMatch(/\d+ min/);
    expect(start).toContain("No pump is left dry.");
  });

  it("prints gallons and feet when asked, and no metric flows in the tables", () => {
    const { stdout } = check(sample("courtyard-bog"), "--us");
    const pumps = stdout.slice(stdout.indexOf("\nPumps"), stdout.indexOf("\nPipes"));

    expect(pumps).toMatch(/\d+ gph/);
    expect(pumps).not.toContain("L/h");
  });

  it("ends with what to take care of", () => {
    const { stdout } = check(sample("courtyard-bog"));
    const care = stdout.slice(stdout.indexOf("Take care"));

    for (const word of ["estimates", "electrician", "drowns", "weighs", "air gap"]) expect(care).toContain(word);
  });

  it("runs by the command of the README", () => {
    const { status, stdout } = spawnSync("npm", ["run", "--silent", "check", "--", sample("courtyard-bog")], {
      cwd: root,
      encoding: "utf8",
    });

    expect(stdout).toMatch(/^Courtyard bog filter\n/);
    expect(status).toBe(0);
  });
});

it("every sample opens by the reader that the command line uses", () => {
  for (const name of readdirSync(join(root, "samples")).filter((file) => file.endsWith(".json")))
    expect(readSection(readFileSync(join(root, "samples", name), "utf8")).ok, name).toBe(true);
});

describe("parts without a label", () => {
  // The ids that the editor gives.
  const stems: Record<string, string> = { checkValve: "check-valve", vent: "breather" };
  const unlabelled = (): string => {
    const drawing = readSample();
    const fresh = new Map<string, string>();
    for (const part of drawing.parts) {
      const stem = stems[part.kind as string] ?? (part.kind as string);
      const count = [...fresh.values()].filter((each) => each.replace(/-\d+$/, "") === stem).length;
      fresh.set(part.id as string, count === 0 ? stem : `${stem}-${count + 1}`);
      delete part.label;
    }
    const renamed = (key: string, value: unknown): unknown =>
      ["id", "part", "pipe", "in", "overflow", "from", "to"].includes(key) && typeof value === "string"
        ? (fresh.get(value) ?? value)
        : value;
    return fileOf(JSON.stringify(drawing, renamed));
  };

  it("are called by their kind, in words and on the page", () => {
    const words = check(unlabelled()).stdout;
    const page = check(unlabelled(), "--page").stdout.replace(/^.*<\/head>/s, "");

    expect(words).toMatch(/The vessel: Breather lets air into pipe 1/);
    expect(words).toMatch(/^ {2}the pump /m);
    for (const text of [words, page]) expect(text).not.toMatch(/\b(pipe|valve|pump|vessel|pond|vent|breather)-\d/);
    expect(page).toMatch(/pipe 2/i);
  });

  it("keep their ids in JSON", () => {
    expect(Object.keys(JSON.parse(check(unlabelled(), "--json").stdout).running.pipes)).toContain("pipe-2");
  });
});

describe("--mend CODE", () => {
  it("prints a drawing in which the finding is gone, and says on standard error what was done", () => {
    const before = check(design("low-breather"), "--json");
    const { status, stdout, stderr } = spawned(design("low-breather"), "--mend", "vessel-drains");
    const after = check(fileOf(stdout), "--json");
    const codes = (json: string) => JSON.parse(json).findings.map(({ code }: Json) => code);

    expect(status).toBe(0);
    expect(stderr).toMatch(/^Move the tee of Breather to \+0\.950/);
    expect(codes(before.stdout)).toContain("vessel-drains");
    expect(codes(after.stdout)).not.toContain("vessel-drains");
  });

  it("gives the mended parts no names of its own", () => {
    const drawing = JSON.parse(readFileSync(design("low-breather"), "utf8")) as { parts: Json[] };
    for (const part of drawing.parts) delete part.label;
    const { status, stdout, stderr } = check(fileOf(JSON.stringify(drawing)), "--mend", "vessel-drains");

    expect(status).toBe(0);
    expect(stdout).not.toContain('"label"');
    expect(stderr).not.toMatch(/\b[a-z]+-[a-z0-9]+\b/);
  });

  it.each([
    ["a code that the drawing does not have", "overtops-running", "there is no finding overtops-running"],
    ["a code that takes a person's choice, which it says", "formulas-differ", "a person must decide which formula"],
  ])("ends with 2 for %s", (_, code, words) => {
    const { status, stdout, stderr } = check(design("low-breather"), "--mend", code);

    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toMatch(new RegExp(words));
  });
});

it("says nothing of a reader that has read enough", () => {
  const { status, stdout, stderr } = spawnSync(
    "bash",
    [
      "-c",
      `set -o pipefail; "$0" "$1" "$2" --json | true`,
      process.execPath,
      join(folder, "check.mjs"),
      sample("pump-pit"),
    ],
    { encoding: "utf8" },
  );

  expect(stderr).toBe("");
  expect(stdout).toBe("");
  expect(status).toBe(0);
});
