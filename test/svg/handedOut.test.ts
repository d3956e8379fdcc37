/** What is handed out of every sample: nothing cut, nothing covered, true to scale, in the reader's own units. */
import { describe, expect, test } from "vitest";
import { sentencesOf } from "../../editor/sheet/sentence.ts";
import { readDrawing } from "../../editor/state/files/readDrawing.ts";
import { before, momentAt, tellingMoments } from "../../editor/svg/moments.ts";
import { sequenceSvg } from "../../editor/svg/sequence.ts";
import { type SheetOptions, scalesThatFit, sheetSvg, sheetsOf } from "../../editor/svg/write.ts";
import { bottomOf, drawnWidth, type PowerCut, type Section } from "../../hydraulics/index.ts";
import { lessons } from "../../samples/lessons.ts";
import { readDrawing as readFrom, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";
import { note, pond, section } from "../support/builders.ts";
import { allElements, parseXml, type XmlElement } from "../support/xml.ts";
import { overlaps, type WordBox, wordBoxes } from "./boxes.ts";
import { strangersIn } from "./sheet.ts";

const files = lessons.map(({ file }) => file);
const optionsOf = (file: string): SheetOptions => solve(readFrom(`${samples}/${file}`));

function solve(drawn: Section): SheetOptions {
  const { running, powerCut, findings } = assessmentOf(drawn);
  return { section: drawn, running, powerCut, findings, system: "metric", paper: "A4", theme: "print" };
}

const cutOf = ({ powerCut }: SheetOptions): PowerCut => {
  if (!powerCut) throw new Error("no power cut was followed");
  return powerCut;
};
const sequenceOf = (options: SheetOptions): string =>
  sequenceSvg({ ...options, moments: tellingMoments(cutOf(options)) });

/** What is handed out of a sample, drawn once for all that is asked of it. */
const handedOut = new Map<string, string>();
function handed(file: string, kind: "sheet" | "sequence", look: Partial<SheetOptions> = {}): string {
  const key = `${file} ${kind} ${JSON.stringify(look)}`;
  const options = { ...optionsOf(file), ...look };
  const svg = handedOut.get(key) ?? (kind === "sheet" ? sheetSvg(options) : sequenceOf(options));
  handedOut.set(key, svg);
  return svg;
}
const us = { paper: "Letter", system: "us" } as const;

const wordsOf = (root: XmlElement): string =>
  allElements(root)
    .filter(({ name }) => name === "text")
    .map(({ text }) => text)
    .join(" ");
const plain = (text: string): string => text.replace(/\s+/g, " ").trim();

function sizeOf(root: XmlElement): readonly [number, number] {
  const [, , width = 0, height = 0] = (root.attributes.get("viewBox") ?? "").split(" ").map(Number);
  return [width, height];
}

describe.each(files)("%s", (file) => {
  test("no words cover others or leave the paper, on A4, A3 and Letter, in metres and feet, as a sheet and as a sequence", () => {
    const looks = [{}, { paper: "A3" }, us] as const;
    for (const look of looks)
      for (const kind of ["sheet", "sequence"] as const) {
        if (kind === "sequence" && "paper" in look && look.paper === "A3") continue;
        const root = parseXml(handed(file, kind, look));
        const boxes = wordBoxes(root);
        const [width, height] = sizeOf(root);

        expect(strangersIn(root)).toEqual([]);
        expect(overlaps(boxes)).toEqual([]);
        const outside = boxes.filter((box) => box.left < 0 || box.top < 0 || box.right > width || box.bottom > height);
        expect(outside.map(({ text }) => text)).toEqual([]);
      }
  });

  test("every finding, remedy, step and part is there in full", () => {
    const options = optionsOf(file);

    const said = plain(wordsOf(parseXml(handed(file, "sheet"))));

    // Sentences keep all their digits until they are shown.
    const shown = sentencesOf(options.section, "metric");
    for (const { text, remedy } of options.findings) {
      expect(said).toContain(plain(shown(text)));
      expect(said).toContain(plain(shown(remedy)));
    }
    for (const { text } of cutOf(options).events) expect(said).toContain(plain(shown(text)));
    for (const part of options.section.parts.values())
      expect(said).toContain(plain(part.kind === "note" ? part.text : (part.label ?? "")));
  });

  test("bodies stand as wide, as tall and as far apart as the scale says", () => {
    const options = optionsOf(file);
    for (const scale of scalesThatFit(options).slice(0, 2)) {
      const root = parseXml(sheetSvg({ ...options, scale, date: "2026-05-01" }));
      const mm = (metres: number): number => (metres * 1000) / scale;
      const bodies = [...options.section.parts.values()].filter(({ kind }) => kind === "pond" || kind === "vessel");
      const outlines = allElements(root)
        .filter(({ name }) => name === "polyline")
        .map(({ attributes }) => extentOf(attributes.get("points") ?? ""));
      const lefts = bodies.map((body) => {
        if (body.kind !== "pond" && body.kind !== "vessel") throw new Error("no body");
        const [width, height] = [mm(drawnWidth(body)), mm(body.rimLevel - bottomOf(body))];
        const own = outlines.filter((box) => near(box.width, width) && near(box.height, height));
        expect(own.length, `${body.id} at 1:${scale}`).toBeGreaterThan(0);
        return { x: body.x, places: own.map(({ left }) => left) };
      });
      const [first, ...others] = lefts;
      for (const { x, places } of others) {
        const apart = mm(x - (first?.x ?? 0));
        expect(places.some((place) => (first?.places ?? []).some((from) => near(place - from, apart)))).toBe(true);
      }
      expect(wordsOf(root)).toContain(`1:${scale} on A4`);
      expect(wordsOf(root)).toContain("2026-05-01");
    }
  });

  test("opens from its sheet and from its sequence as it was", () => {
    const options = optionsOf(file);

    for (const kind of ["sheet", "sequence"] as const)
      expect(readDrawing(handed(file, kind))).toEqual({ ok: true, value: options.section });
  });

  test("a sheet in feet says nothing in metres or litres but the names of sizes", () => {
    const options = optionsOf(file);
    const own = [...options.section.parts.values()].flatMap((part) =>
      part.kind === "pipe" && part.nominal ? [part.nominal] : [],
    );
    const notes = [...options.section.parts.values()].map((part) => (part.kind === "note" ? part.text : "")).join(" ");
    const boxes = (["sheet", "sequence"] as const).flatMap((kind) => wordBoxes(parseXml(handed(file, kind, us))));

    const metric = boxes
      .filter(({ text }) => !notes.includes(text))
      .map(({ text }) => own.reduce((rest, words) => rest.replace(words, ""), text))
      .filter((text) => /\d (?:mm|m|L|kg|m³|m\/s|m\/h|L\/h|mm\/m|°C)(?![\w³/])/.test(text));

    expect(metric).toEqual([]);
  });

  test("no line ends between a figure and its unit", () => {
    for (const look of [{}, us]) {
      const boxes = wordBoxes(parseXml(handed(file, "sheet", look)));

      expect(split(boxes)).toEqual([]);
    }
  });
});

const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.006;

function extentOf(points: string): { readonly left: number; readonly width: number; readonly height: number } {
  const places = points.split(" ").map((place) => place.split(",").map(Number) as [number, number]);
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => y);
  const left = Math.min(...xs);
  return { left, width: Math.max(...xs) - left, height: Math.max(...ys) - Math.min(...ys) };
}

/** Lines that begin with a unit straight under one that ends with a figure. */
function split(boxes: readonly WordBox[]): readonly string[] {
  return boxes.flatMap((line, i) => {
    const next = boxes[i + 1];
    const isUnder = next && Math.abs(next.left - line.left) < 2 && next.top > line.top && next.top - line.bottom < 2;
    return isUnder && /\d$/.test(line.text) && /^(?:mm|m|L|kg|ft|in|gal|gph|lb|min|s|h|%|m\/s|L\/h)\b/.test(next.text)
      ? [`${line.text} | ${next.text}`]
      : [];
  });
}

describe("a drawing with more in it than a sheet", () => {
  const long = "A note with more words in it than can stand beside its place on the section, told at length. "
    .repeat(4)
    .trim();
  const crowded = section([
    ...Array.from({ length: 70 }, (_, i) => pond({ id: `pond-${i}`, label: `Pool number ${i}`, x: 2 * i, width: 1.2 })),
    note({ id: "long", text: long.slice(0, 400) }),
  ]);

  test("goes on on further sheets, numbered, with every part and the whole note", () => {
    const options = solve(crowded);

    const sheets = sheetsOf(options);
    const root = parseXml(sheetSvg(options));
    const said = plain(wordsOf(root));

    expect(sheets.length).toBeGreaterThan(1);
    expect(sizeOf(root)).toEqual([297, 210 * sheets.length]);
    for (let i = 0; i < 70; i++) expect(said).toContain(`Pool number ${i}`);
    expect(said).toContain(long.slice(0, 400).trim());
    for (let i = 1; i <= sheets.length; i++) expect(said).toContain(`sheet ${i} of ${sheets.length}`);
    expect(overlaps(wordBoxes(root))).toEqual([]);
    expect(strangersIn(root)).toEqual([]);
    expect(readDrawing(sheetSvg(options))).toEqual({ ok: true, value: crowded });
  });

  test("each sheet alone is a file of its own, with the drawing inside", () => {
    const options = solve(crowded);

    const second = parseXml(sheetSvg(options, 2));

    expect(sizeOf(second)).toEqual([297, 210]);
    expect(wordsOf(second)).toMatch(/sheet 2 of/);
    expect(readDrawing(sheetSvg(options, 2))).toEqual({ ok: true, value: crowded });
  });
});

describe("a sequence", () => {
  // The drum of this drawing drains through its supply until air reaches its breather's tee at +0.45.
  const draining = (): SheetOptions => solve(readFrom("design/low-breather.json"));

  test("tells of before, of the way down and of rest, with the levels of each", () => {
    const options = draining();
    const cut = cutOf(options);
    const levels = [...cut.history.levels.values()].map((series) => [series[0] as number, series.at(-1) as number]);
    const shown = (level: number): string => `${level < 0 ? "−" : "+"}${Math.abs(level).toFixed(3)} m`;

    const said = wordsOf(parseXml(sequenceOf(options)));

    expect(said).toMatch(/A Before: the pumps run .*B After .*C After .*: at rest/);
    for (const [start, end] of levels) {
      expect(said).toContain(shown(start as number));
      expect(said).toContain(shown(end as number));
    }
    expect(said).toMatch(/residual-current protection.*air gap|air gap.*residual-current protection/);
  });

  test("shows moments of one's own, at one scale, without a handle to drag", () => {
    const options = draining();
    const cut = cutOf(options);
    const moments = [before, momentAt(cut, 30), momentAt(cut, 60), momentAt(cut, Number.POSITIVE_INFINITY)];

    const svg = sequenceSvg({ ...options, moments, paper: "A3" });
    const ponds = allElements(parseXml(svg))
      .filter(({ name }) => name === "polyline")
      .map(({ attributes }) => extentOf(attributes.get("points") ?? ""));
    const pondWidth = Math.max(
      ...[...options.section.parts.values()].map((part) => (part.kind === "pond" ? part.width : 0)),
    );
    const scale = Number(/1:(\d+) on A3/.exec(svg)?.[1]);

    expect(ponds.filter((box) => near(box.width, (pondWidth * 1000) / scale)).length).toBeGreaterThanOrEqual(4);
    expect(svg).not.toContain("M-1.1 -1.4H1.1");
    expect(sheetSvg({ ...options, moment: 30 })).not.toContain("M-1.1 -1.4H1.1");
  });

  test("the same call gives the same sheet, letter for letter", () => {
    const options = draining();

    expect(sequenceOf(options)).toBe(sequenceOf(options));
  });
});
