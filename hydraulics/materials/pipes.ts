/** Pipe by its size: cut leg by leg out of stock lengths where it is rigid, since a bend is a fitting; what bends is
 * bought in one piece. Stock lengths are common practice, no source:
 * they differ by country and shop, so each can be typed over. */
import { countsBends, extraLengthOf, pipeMaterial } from "../document/defaults.ts";
import { lineLength, pipeLine } from "../document/geometry.ts";
import type { Material, Pipe, Section } from "../document/section.ts";
import { bendsOf, samePlace } from "../network/pipeModel.ts";
import type { Counted } from "./counted.ts";
import { cutFrom } from "./cutFrom.ts";
import { leastTurn } from "./fittings.ts";
import { type MaterialRow, plainRow } from "./row.ts";
import { sizeOf } from "./sizeWords.ts";

export interface MaterialOptions {
  /** m, by a row's key */
  readonly stock?: ReadonlyMap<string, number>;
}

/** m as sold. Common practice, no source. */
const usualStock: Readonly<Record<Material, number>> = {
  pvc: 5,
  pe: 25,
  hose: 25,
  corrugated: 25,
  copper: 5,
  galvanised: 6,
};

/** Pipe named in inches is sold by the ten feet. Common practice, no source. */
const inchStock = 3.048;
const usualFor = (pipe: Pipe): number =>
  / in\b/.test(pipe.nominal ?? "") && !bendsItself.has(pipeMaterial(pipe)) ? inchStock : usualStock[pipeMaterial(pipe)];

/** Sold by the metre, and bent where it lies. */
const bendsItself: ReadonlySet<Material> = new Set(["pe", "hose", "corrugated"]);

const materialNames: Readonly<Record<Material, string>> = {
  pvc: "PVC-U pipe",
  pe: "polyethylene pipe",
  hose: "smooth hose",
  corrugated: "corrugated hose",
  copper: "copper tube",
  galvanised: "galvanised steel pipe",
};

export function pipeRows(
  section: Section,
  pipes: readonly Pipe[],
  { stock }: MaterialOptions,
  counted: Counted,
): readonly MaterialRow[] {
  const bySize = new Map<string, Pipe[]>();
  for (const pipe of pipes) {
    const key = `pipe: ${pipeMaterial(pipe)}, ${sizeOf(pipe)}`;
    bySize.set(key, [...(bySize.get(key) ?? []), pipe]);
  }
  return [...bySize].map(([key, same]) => {
    const first = same[0] as Pipe;
    const material = pipeMaterial(first);
    const sold = stock?.get(key) ?? usualFor(first);
    const flexible = bendsItself.has(material);
    const legs = same.flatMap((pipe) => legsOf(section, pipe, flexible));
    const length = same.reduce((sum, pipe) => sum + lineLength(pipeLine(section, pipe)) + extraLengthOf(pipe), 0);
    const cutting = cutFrom(legs, sold);
    counted.add("fitting", `coupling, ${sizeOf(first)}`, first.id, "", cutting.couplings);
    return plainRow({
      key,
      group: "pipe",
      what: `${materialNames[material]}, ${sizeOf(first)}`,
      // Hose is cut from the roll at the shop.
      priced: flexible ? "metre" : "length",
      amount: flexible ? length : cutting.count,
      length,
      cutting,
      parts: same.map(({ id }) => id),
    });
  });
}

/** m; straight pieces between fittings of what does not bend, else the whole. */
function legsOf(section: Section, pipe: Pipe, flexible: boolean): readonly number[] {
  const line = pipeLine(section, pipe);
  const drawn = lineLength(line);
  const extra = extraLengthOf(pipe);
  if (flexible || !countsBends(pipe)) return [drawn + extra].filter((leg) => leg > samePlace);
  const places = [
    0,
    ...bendsOf(line)
      .filter(({ turn }) => turn >= leastTurn)
      .map(({ at }) => at),
    drawn,
  ];
  const legs = places.slice(1).map((at, k) => at - (places[k] as number));
  return [...legs, extra].filter((leg) => leg > samePlace);
}
