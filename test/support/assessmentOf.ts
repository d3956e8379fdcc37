/** What the program says of a drawing, as quickly as it shows it.
 * Asked for again, by whichever file, it is the same. */
import { type Assessed, assess, type Section } from "../../hydraulics/index.ts";

const known = new WeakMap<Section, Assessed>();

export function assessmentOf(section: Section): Assessed {
  const found = known.get(section) ?? assess(section, { quick: true });
  known.set(section, found);
  return found;
}
