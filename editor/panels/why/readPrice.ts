/** Reads what a person typed for a price: a point or a comma before the cents, thousands set apart if they must. What
 * could be two numbers is refused, and so is another currency than the drawing's: sums of two currencies are nonsense. */
import type { Result } from "../../../hydraulics/index.ts";

/** Signs and codes that stand for the same money. */
const sameMoney: readonly (readonly string[])[] = [
  ["€", "eur", "euro", "euros"],
  ["$", "usd", "us$", "dollar", "dollars"],
  ["£", "gbp", "pound", "pounds"],
  ["¥", "jpy", "yen"],
  ["₹", "inr"],
  ["chf", "fr.", "sfr"],
];

const known = (name: string): readonly string[] => {
  const low = name.trim().toLowerCase();
  return sameMoney.find((names) => names.includes(low)) ?? [low];
};

const highest = 1e9;

export function readPrice(typed: string, currency: string): Result<number, string> {
  const no = (error: string): Result<number, string> => ({ ok: false, error });
  const text = typed.trim().replace(/[\u00a0\u202f\u2009]/g, " ");
  const parts = /^([^\d.,+\-−]*)\s*([+\-−]?)\s*([\d][\d., ']*|[.,]\d+)\s*([^\d.,]*)$/u.exec(text);
  if (!parts) return no(`"${short(text)}" is no price; understood are 12.50 and 12,50.`);
  const [, before = "", sign = "", digits = "", after = ""] = parts;
  if (sign === "-" || sign === "−") return no("A price can not be negative.");
  const named = [before, after].map((word) => word.trim()).filter((word) => word !== "");
  for (const name of named) {
    if (currency.trim() === "")
      return no(
        `The drawing names no currency, so "${short(name)}" can not be told: type the number alone, or name the currency on the drawing's own slip.`,
      );
    if (!known(name).some((each) => known(currency).includes(each)))
      return no(
        `This drawing counts in ${currency.trim()}, and "${short(name)}" is another currency: turn it into ${currency.trim()} first.`,
      );
  }
  const value = amountOf(digits.trim());
  if (value === null)
    return no(`"${short(digits)}" could be two numbers; type it without a sign between thousands, such as 1234.50.`);
  if (value > highest) return no("That is more than any pond costs.");
  return { ok: true, value };
}

const short = (text: string): string => (text.length <= 20 ? text : `${text.slice(0, 19)}…`);

/** Null where a sign may be the decimal one as well as one between thousands. */
function amountOf(digits: string): number | null {
  const tight = digits.replace(/[ '](?=\d{3}(?!\d))/g, "");
  if (/[ ']/.test(tight)) return null;
  const signs = [...tight.matchAll(/[.,]/g)].map(([sign]) => sign);
  if (signs.length === 0) return Number(tight);
  const last = signs.at(-1) as string;
  const [whole = "", cents = ""] = [tight.slice(0, tight.lastIndexOf(last)), tight.slice(tight.lastIndexOf(last) + 1)];
  if (signs.length === 1)
    return cents.length === 3 && whole !== "" && whole !== "0" ? null : Number(`${whole || "0"}.${cents || "0"}`);
  // The last sign is the decimal one where it is of the other kind; else all of them set thousands apart.
  const other = last === "." ? "," : ".";
  if (signs.slice(0, -1).every((sign) => sign === other))
    return /^\d{1,3}([.,]\d{3})+$/.test(whole) ? Number(`${whole.replace(/[.,]/g, "")}.${cents}`) : null;
  return signs.every((sign) => sign === last) && /^\d{1,3}([.,]\d{3})+$/.test(tight)
    ? Number(tight.replace(/[.,]/g, ""))
    : null;
}
