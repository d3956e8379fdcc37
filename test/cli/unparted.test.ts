/** A figure and its unit stand on one line. `~` stands for the space at which no line breaks. */
import { expect, it } from "vitest";
import { unparted } from "../../hydraulics/report/unparted.ts";

it.each([
  ["carries 4,410 L/h at 0.31 m/s", "carries 4,410~L/h at 0.31~m/s"],
  ["a level from +0.45 m, 1 ft 7 7/8 in over it", "a level from +0.45~m, 1~ft~7~7/8~in over it"],
  ["3/4 in and 1 1/2 in", "3/4~in and 1~1/2~in"],
  ["after 2 h 10 min, or 6 s", "after 2~h~10~min, or 6~s"],
  ["from 0.3 to 1.5 m/h, 82 % of 196 lb/ft²", "from 0.3 to 1.5~m/h, 82~% of 196~lb/ft²"],
  ["2 pipes, 3 men and 5 litres", "2 pipes, 3 men and 5 litres"],
  ["50 mm, 2 m.", "50~mm, 2~m."],
  ["4 hours, 3 minutes, 2 master", "4 hours, 3 minutes, 2 master"],
])("%s", (text, wanted) => {
  expect(unparted(text).replaceAll("\u00a0", "~")).toBe(wanted);
});
