/** A drawing in a link: what is put in comes out, and what was cut, damaged or made to do harm is refused in words. */
import { deflateRawSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { fromBase64url, toBase64url } from "../../editor/link/base64url.ts";
import { crc32 } from "../../editor/link/crc32.ts";
import { fragmentOf, longestLink, readFragment } from "../../editor/link/drawingLink.ts";
import { type Section, writeSection } from "../../hydraulics/index.ts";
import { loopedSupply, note, section } from "../support/builders.ts";
import { randomSection } from "../support/randomSection.ts";
import { seeded } from "../support/seeded.ts";

async function linkOf(drawn: Section): Promise<string> {
  const made = await fragmentOf(drawn);
  if (!made.ok) throw new Error(made.error);
  return made.value;
}

/** As the program makes it, of any bytes. */
function wrapped(bytes: Uint8Array, check = crc32(bytes)): string {
  const letters = toBase64url(deflateRawSync(bytes));
  return `#drawing=${letters.length.toString(36)}.${check.toString(36)}.${letters}`;
}
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

test("500 random drawings come out of their links as they went in", async () => {
  for (let seed = 1; seed <= 500; seed++) {
    const drawn = randomSection({ seed, mode: seed % 3 === 0 ? "wild" : "sensible", size: 1 + (seed % 6) });

    const read = await readFragment(await linkOf(drawn));

    if (!read.ok) throw new Error(`seed ${seed}: ${read.error.text}`);
    expect(writeSection(read.value), `seed ${seed}`).toBe(writeSection(drawn));
  }
}, 60_000);

test("any letters in a title or a note come back, and stand in the link as safe letters only", async () => {
  const words = `"<script>&#x;' \u{1f41f} é 水 \\u003c %00 #drawing=`;
  const drawn = section([note({ text: words })], { title: words });

  const link = await linkOf(drawn);
  const read = await readFragment(link);

  expect(link).toMatch(/^#drawing=[0-9a-z]+\.[0-9a-z]+\.[A-Za-z0-9_-]+$/);
  expect(read).toEqual({ ok: true, value: drawn });
});

// RFC 4648, section 10, without padding; section 5 for the last two letters of the alphabet.
test.each([
  ["", ""],
  ["f", "Zg"],
  ["fo", "Zm8"],
  ["foo", "Zm9v"],
  ["foob", "Zm9vYg"],
  ["fooba", "Zm9vYmE"],
  ["foobar", "Zm9vYmFy"],
])("base64url of %j is %j", (text, letters) => {
  expect(toBase64url(bytesOf(text))).toBe(letters);
  expect(fromBase64url(letters)).toEqual(bytesOf(text));
});
test("base64url has - and _ for 62 and 63", () => {
  expect(toBase64url(Uint8Array.of(0xfb, 0xff))).toBe("-_8");
});

// The check value of this CRC for the nine digits, as its catalogues list it (CRC-32/ISO-HDLC).
test("the check of 123456789 is CBF43926", () => {
  expect(crc32(bytesOf("123456789"))).toBe(0xcbf43926);
});

describe("a link that came to harm", () => {
  test("cut anywhere it is refused, and says that it is cut", async () => {
    const link = await linkOf(loopedSupply());
    for (let end = "#drawing=".length; end < link.length; end += 7) {
      const read = await readFragment(link.slice(0, end));

      expect(read, `cut at ${end}`).toMatchObject({ ok: false, error: { text: expect.stringMatching(/is cut/) } });
    }
    expect(await readFragment(link.slice(0, link.length / 2))).toMatchObject({
      error: { text: expect.stringMatching(/holds [\d,]+ of its [\d,]+ letters/) },
    });
  });

  test("with any one letter changed it is refused, and never throws", async () => {
    const link = await linkOf(loopedSupply());
    const { whole, pick } = seeded(8);
    const from = link.lastIndexOf(".") + 1;
    for (let i = 0; i < 300; i++) {
      const at = whole(from, link.length - 1);
      const letter = pick([..."ABCabc019-_"].filter((each) => each !== link[at]));

      const read = await readFragment(`${link.slice(0, at)}${letter}${link.slice(at + 1)}`);

      // The very last letter may hold bits that stand for nothing.
      if (at < link.length - 1) expect(read.ok, `${letter} at ${at}`).toBe(false);
    }
  });

  test.each([
    ["a check that is not its own", () => wrapped(bytesOf(writeSection(loopedSupply())), 1), /damaged/],
    ["letters that are no deflate", () => "#drawing=8.0.AAAAAAAA", /damaged/],
    ["bytes that are no text", () => wrapped(Uint8Array.of(0xff, 0xfe, 0xfd)), /damaged/],
    ["no counts", () => "#drawing=hello", /cut or damaged/],
    ["nothing", () => "#drawing=", /cut or damaged/],
    ["more letters than any drawing", () => `#drawing=1.1.${"A".repeat(2_000_001)}`, /too long/],
    ["a bomb: letters that unpack to a thousand times as much", () => bomb(), /more than a drawing may hold/],
    ["JSON that is no drawing", () => wrapped(bytesOf('{"format":"other"}')), /no drawing that can be read/],
  ])("%s is refused in words", async (_, link, said) => {
    const read = await readFragment(link());

    expect(read).toMatchObject({ ok: false, error: { text: expect.stringMatching(said) } });
  });

  test("what is wrong in the document is named", async () => {
    const read = await readFragment(
      wrapped(bytesOf(writeSection(loopedSupply()).replace('"bore": 0.034', '"bore": 34'))),
    );

    expect(read).toMatchObject({ ok: false, error: { problems: [{ path: expect.stringMatching(/bore$/) }] } });
  });
});

/** 64 MiB of zeros, four times what a drawing may hold; deflate makes a thousandth of it. */
const bomb = (): string => wrapped(new Uint8Array(64 * 1024 * 1024));

test("a link that a mail broke into lines, spelled out or ended with a full stop still opens", async () => {
  const link = await linkOf(loopedSupply());
  const broken = [`${link.slice(0, 60)}\r\n ${link.slice(60)}`, link.replace("=", "%3D"), `${link}.`, `${link}>`];

  for (const each of broken) expect(await readFragment(each)).toEqual({ ok: true, value: loopedSupply() });
});

test("a drawing too large for a link says so, and by how much", async () => {
  const { letter } = { letter: seeded(3) };
  const words = Array.from({ length: 80 }, (_, i) =>
    note({
      id: `n-${i}`,
      text: Array.from({ length: 390 }, () => String.fromCharCode(letter.whole(33, 126))).join(""),
    }),
  );

  const made = await fragmentOf(section(words));

  expect(made).toMatchObject({ ok: false, error: expect.stringMatching(/too large for a link: [\d,]+ letters/) });
});

test("every sample's link is passed on safely", async () => {
  const { lessons } = await import("../../samples/lessons.ts");
  const { readDrawing } = await import("../scenarios/readDrawing.ts");
  for (const { file } of lessons) {
    const link = await linkOf(readDrawing(`../../samples/${file}`));

    expect(link.length).toBeLessThan(longestLink / 4);
  }
});
