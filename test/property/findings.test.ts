/** Findings over random drawings: they can be read, they agree with the readings, and they do not hang on the file's
 * order. Seeded: each failure names its seed, size and mode, so that `randomSection` draws it again.
 * DRAWINGS sets how many seeds of each size and mode are tried. */
import { beforeAll, describe, expect, it } from "vitest";
import { type Assessed, assess } from "../../hydraulics/assess.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { table } from "../../hydraulics/findings/index.ts";
import { randomSection } from "../support/randomSection.ts";
import { faultsIn } from "../support/sentences.ts";

const seeds = Number(process.env.DRAWINGS ?? 20);
const long = 120_000;

interface Drawn {
  readonly name: string;
  readonly section: Section;
  readonly result: Assessed;
}
const drawings: Drawn[] = [];

beforeAll(() => {
  for (const mode of ["sensible", "wild"] as const) {
    for (const size of [1, 2, 4]) {
      for (let seed = 1; seed <= seeds; seed++) {
        const section = randomSection({ seed, size, mode });
        drawings.push({
          name: `${mode}, size ${size}, seed ${seed}`,
          section,
          result: assess(section, { quick: true }),
        });
      }
    }
  }
}, long);

const ofCode = (findings: readonly Finding[], code: string): string =>
  findings
    .filter((finding) => finding.code === code)
    .map(({ parts }) => parts[0])
    .sort()
    .join();

const failures = ({ findings }: Assessed): string =>
  findings
    .filter(({ severity }) => severity === "failure")
    .map(({ code, parts }) => `${code} ${[...parts].sort().join(" ")}`)
    .sort()
    .join();

describe("findings of random drawings", () => {
  it("can be read, name parts of the drawing and are in the table", () => {
    const codes = new Set(table.flatMap((entry) => entry.codes));

    const faults = drawings.flatMap(({ name, section, result }) =>
      result.findings.flatMap((finding) => [
        ...faultsIn(finding, section).map((fault) => `${name}: ${fault}`),
        ...(codes.has(finding.code) ? [] : [`${name}: ${finding.code} is not in the table`]),
      ]),
    );

    expect(faults).toEqual([]);
    expect(drawings.flatMap(({ result }) => result.findings).length).toBeGreaterThan(drawings.length);
  });

  it("say of every vessel that drains, is held by a moving part or overtops that it does, and of no other", () => {
    const wrong: string[] = [];
    let said = 0;
    for (const { name, result } of drawings) {
      const { running, powerCut, findings } = result;
      if (!running.converged || !powerCut || powerCut.failedAt) continue;
      const cut = [...powerCut.vessels];
      const expected = {
        "vessel-drains": cut.filter(([, vessel]) => vessel.verdict === "drains"),
        "held-by-moving-part": cut.filter(([, vessel]) => vessel.heldBy === "movingPart"),
        "overtops-running": [...running.vessels].filter(([, vessel]) => vessel.overtops),
      };
      for (const [code, vessels] of Object.entries(expected)) {
        const ids = vessels.map(([id]) => id).sort();
        said += ids.length;
        if (ofCode(findings, code) !== ids.join()) wrong.push(`${name}: ${code} ${ofCode(findings, code)}, not ${ids}`);
      }
    }

    expect(wrong).toEqual([]);
    expect(said).toBeGreaterThan(10);
  });

  it("lose water to the ground while running only where a failure says by which way", () => {
    const ways = ["overtops-running", "vent-loses-water", "open-end-loses-water", "sill-loses-water"];
    // 0.1 L an hour
    const losing = drawings.filter(
      ({ result: { running } }) =>
        running.converged && [...running.ponds.values()].some(({ lossToGround }) => lossToGround > 3e-8),
    );

    const silent = losing.filter(
      ({ result }) => !result.findings.some(({ code, severity }) => ways.includes(code) && severity === "failure"),
    );

    expect(silent.map(({ name }) => name)).toEqual([]);
    expect(losing.length).toBeGreaterThan(5);
  });

  it("give the same failures when the file lists its parts the other way round", { timeout: long }, () => {
    const differ: string[] = [];
    // Where a cut breaks off, the step names the parts at which it stuck, and those hang on the order of the equations.
    const whole = drawings.filter(({ result }) => result.powerCut?.failedAt === null);
    for (const { name, section, result } of whole.slice(0, 40)) {
      const parts = [...section.parts].reverse();
      const turned = new Map(parts.map(([id, part], rank) => [id, { ...part, rank }]));
      const other = failures(assess({ ...section, parts: turned }, { quick: true }));
      if (other !== failures(result)) differ.push(`${name}: ${other}, not ${failures(result)}`);
    }

    expect(differ).toEqual([]);
  });
});
