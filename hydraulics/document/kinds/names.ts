import type { Part, PartId, PartKind } from "../section.ts";
import { inside, type Place } from "../shape/place.ts";
import type { Problems } from "../shape/problems.ts";

/** The ids of a file and what bears them. A part whose other fields are wrong is still known by name, so that
 * one slip is not followed by a complaint of every part that refers to it; its `part` is absent. */
export class Names {
  private readonly known = new Map<string, { kind: PartKind | null; part?: Part }>();

  add(id: string, kind: PartKind | null, part: Part | undefined): void {
    this.known.set(id, part ? { kind, part } : { kind });
  }

  /** The part of this id, if it is readable. */
  part(id: PartId): Part | undefined {
    return this.known.get(id)?.part;
  }

  /** Says so where the id at `at` names no part, or one of a kind that can't stand here. */
  expect(id: PartId, kinds: readonly PartKind[], at: Place, problems: Problems): boolean {
    const found = this.known.get(id);
    if (found && (found.kind === null || kinds.includes(found.kind))) return true;
    const words = kinds.length === 1 ? kinds[0] : `${kinds.slice(0, -1).join(", ")} or ${kinds.at(-1)}`;
    problems.addWords(at, `the id of a ${words}`, `"${id}", ${found ? `a ${found.kind}` : "which no part has"}`);
    return false;
  }

  expectBody(id: PartId, at: Place, problems: Problems): boolean {
    return this.expect(id, ["pond", "vessel"], at, problems);
  }

  /** For a field that may also say `ground`, which is the ground whatever a part is called. */
  expectBodyOrGround(id: PartId | "ground", owner: { id: PartId; at: Place }, field: string, problems: Problems): void {
    if (id === "ground") return;
    const at = inside(owner.at, field);
    if (id === owner.id) problems.add(at, 'another body than its own, or "ground"', id);
    else this.expectBody(id, at, problems);
  }
}
