/** Printing, and PDF through it: one sheet to a page, at its true scale, whatever is on the screen. The browser's own
 * print command does the same as the slip's. */
import type { Desk } from "../state/desk.ts";
import { pictureSvg } from "../svg/picture.ts";
import type { Results } from "../worker/results.ts";
import { chosenNow } from "./handOutChoices.ts";
import { handOutOf } from "./handOutSheets.ts";
import { pricesNow, readPrices } from "./why/prices.ts";
import "./print.css";

export function printSheets(desk: Desk, results: Results): void {
  let pages: HTMLElement | null = null;
  // Printing can not wait for the browser's store: what it holds is read beforehand.
  void readPrices();
  window.addEventListener("beforeprint", () => {
    pages?.remove();
    pages = pagesOf(desk, results);
    document.body.append(pages);
  });
  window.addEventListener("afterprint", () => {
    pages?.remove();
    pages = null;
  });
}

function pagesOf(desk: Desk, results: Results): HTMLElement {
  const { paper, sheets } = handOutOf(desk, results, chosenNow(), pricesNow());
  const pages = document.createElement("div");
  pages.className = "printed";
  for (const sheet of sheets) {
    const page = document.createElement("div");
    page.className = `printed-sheet ${paper.toLowerCase()}-${sheet.width > sheet.height ? "lying" : "upright"}`;
    const parsed = new DOMParser().parseFromString(pictureSvg(sheet), "image/svg+xml");
    page.append(document.importNode(parsed.documentElement, true));
    pages.append(page);
  }
  return pages;
}
