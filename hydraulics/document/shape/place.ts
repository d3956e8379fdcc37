/** Where in a file a value stands, as a chain up to the file itself, so that a path costs nothing until
 * something is wrong there. */
export interface Place {
  readonly owner: Place | null;
  readonly key: string | number;
}

export const inside = (owner: Place | null, key: string | number): Place => ({ owner, key });

/** Such as `parts[3].curve[2]`; `` for the file as a whole. A key that is no plain word is quoted. */
export function pathOf(place: Place | null): string {
  const keys: (string | number)[] = [];
  for (let at = place; at; at = at.owner) keys.push(at.key);
  let path = "";
  for (const key of keys.reverse()) {
    if (typeof key === "number") path += `[${key}]`;
    else if (/^[A-Za-z_][A-Za-z0-9_]{0,60}$/.test(key)) path += path === "" ? key : `.${key}`;
    else path += `[${JSON.stringify(key.length > 60 ? `${key.slice(0, 60)}…` : key)}]`;
  }
  return path;
}
