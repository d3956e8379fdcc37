/** What the reader knows of a kind of part: its fields, and what has to agree within it and with others. */

import type { Part } from "../section.ts";
import type { Fields } from "../shape/check.ts";
import type { Place } from "../shape/place.ts";
import type { Problems } from "../shape/problems.ts";
import type { Names } from "./names.ts";

export interface Kind<P extends Part> {
  /** for messages, with its article */
  readonly called: string;
  /** In the order in which the format lists them. `rank` is the place in the file and no field of it. */
  readonly fields: Fields<Omit<P, "rank">>;
  /** What has to agree within the part. Asked only where every field is readable. */
  readonly agree?: (part: P, at: Place, problems: Problems) => void;
  /** What it has to find among the other parts. */
  readonly refer?: (part: P, at: Place, names: Names, problems: Problems) => void;
}
