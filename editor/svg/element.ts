/** An SVG element as text. Every attribute passes through here, so every attribute is escaped. */
import { escaped } from "./escaped.ts";

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** `content` is text of elements already written, or escaped. */
export function element(name: string, attributes: Attributes, content?: string): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? figure(value) : escaped(value as string)}"`)
    .join("");
  return content === undefined ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** A number to the thousandth: of a millimetre, a thousandth is finer than any printer. */
export function figure(value: number): string {
  // Nothing here is untrusted: a scene that holds no number is our own mistake.
  if (!Number.isFinite(value)) throw new Error(`an SVG was to hold the number ${value}`);
  const text = value.toFixed(3).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}
