/** A small strict reader of XML 1.0 without document types, for what we write ourselves. It throws at the first thing
 * that is not well-formed. Independent of the program's own reader: rules from the recommendation
 * (Extensible Markup Language 1.0, fifth edition, productions 2, 3, 5, 10, 14, 15, 39-44, 66-68). */
export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** its own words, entities resolved */
  readonly text: string;
}

export function parseXml(text: string): XmlElement {
  return new Reader(text).document();
}

/** The element and all in it. */
export const allElements = (root: XmlElement): readonly XmlElement[] => [root, ...root.children.flatMap(allElements)];

const allowed = /^[\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]*$/u;
const namePattern = /[A-Za-z_:][-A-Za-z0-9_:.]*/y;
const entities: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

class Reader {
  private readonly source: string;
  private at = 0;

  constructor(source: string) {
    if (!allowed.test(source)) throw new Error("a character that XML does not allow");
    this.source = source;
  }

  document(): XmlElement {
    if (this.source.startsWith("<?xml ")) this.until("?>");
    this.misc();
    const root = this.element();
    this.misc();
    if (this.at < this.source.length) this.fail("words after the root element");
    return root;
  }

  private misc(): void {
    for (;;) {
      this.space();
      if (!this.source.startsWith("<!--", this.at)) return;
      this.comment();
    }
  }

  private comment(): void {
    this.at += 4;
    if (this.until("-->").includes("--")) this.fail("-- in a comment");
  }

  private element(): XmlElement {
    this.expect("<");
    const name = this.name();
    const attributes = new Map<string, string>();
    for (;;) {
      const space = this.space();
      if (this.take("/>")) return { name, attributes, children: [], text: "" };
      if (this.take(">")) break;
      if (space === 0) this.fail("no space before an attribute");
      const key = this.name();
      this.space();
      this.expect("=");
      this.space();
      const quote = this.take('"') ? '"' : "'";
      if (quote === "'") this.expect("'");
      const raw = this.until(quote);
      if (raw.includes("<")) this.fail("< in an attribute");
      if (attributes.has(key)) this.fail(`${key} twice`);
      attributes.set(key, this.resolved(raw));
    }
    const children: XmlElement[] = [];
    let words = "";
    for (;;) {
      const next = this.source.indexOf("<", this.at);
      if (next < 0) this.fail(`<${name}> is not closed`);
      const raw = this.source.slice(this.at, next);
      if (raw.includes("]]>")) this.fail("]]> in words");
      words += this.resolved(raw);
      this.at = next;
      if (this.source.startsWith("<!--", this.at)) this.comment();
      else if (this.take("</")) {
        if (this.name() !== name) this.fail(`</…> does not close <${name}>`);
        this.space();
        this.expect(">");
        return { name, attributes, children, text: words };
      } else children.push(this.element());
    }
  }

  private resolved(raw: string): string {
    return raw.replace(/&([^;&]*)(;?)/g, (all, inside: string, end: string) => {
      const digits = /^#x([0-9a-fA-F]+)$|^#([0-9]+)$/.exec(inside);
      const letter = digits
        ? String.fromCodePoint(digits[1] === undefined ? Number(digits[2]) : Number.parseInt(digits[1], 16))
        : entities[inside];
      if (end !== ";" || letter === undefined || !allowed.test(letter)) this.fail(`the entity ${all}`);
      return letter as string;
    });
  }

  private name(): string {
    namePattern.lastIndex = this.at;
    const found = namePattern.exec(this.source)?.[0];
    if (found === undefined) this.fail("no name where one must stand");
    this.at += (found as string).length;
    return found as string;
  }

  private space(): number {
    const start = this.at;
    while (/[ \t\r\n]/.test(this.source[this.at] ?? "")) this.at += 1;
    return this.at - start;
  }

  private until(end: string): string {
    const at = this.source.indexOf(end, this.at);
    if (at < 0) this.fail(`no ${end}`);
    const found = this.source.slice(this.at, at);
    this.at = at + end.length;
    return found;
  }

  private take(words: string): boolean {
    if (!this.source.startsWith(words, this.at)) return false;
    this.at += words.length;
    return true;
  }

  private expect(words: string): void {
    if (!this.take(words)) this.fail(`no ${words}`);
  }

  private fail(why: string): never {
    throw new Error(`${why}, at ${this.at}: ${this.source.slice(Math.max(0, this.at - 40), this.at + 40)}`);
  }
}
