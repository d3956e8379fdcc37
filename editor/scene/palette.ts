/** What the roles look like: on paper, by night and in print (black on white), and how wide the pens are. */
import type { Pen, Role } from "./node.ts";

export type PaletteName = "paper" | "night" | "print";
export type Palette = Readonly<Record<Role, string>>;

export const palettes: Readonly<Record<PaletteName, Palette>> = {
  paper: {
    desk: "#E9E6DC",
    sheet: "#FCFBF6",
    ink: "#1F2C34",
    soft: "#4E5A60",
    hair: "#CBD0CC",
    water: "#8CC0BE",
    waterline: "#1F7374",
    ground: "#EFE7D8",
    hatch: "#B9A585",
    stone: "#D8D0C0",
    stoneLine: "#9A8F7C",
    held: "#2E6B3E",
    part: "#7B4E0A",
    drains: "#B23520",
    plant: "#6E9A5B",
    focus: "#1E5FAE",
    none: "none",
  },
  night: {
    desk: "#0E171C",
    sheet: "#152128",
    ink: "#E6ECEA",
    soft: "#A2B4B8",
    hair: "#2C3C44",
    water: "#2E6E72",
    waterline: "#7FD0CC",
    ground: "#1C2521",
    hatch: "#5A5240",
    stone: "#3A423F",
    stoneLine: "#76807A",
    held: "#7CC98D",
    part: "#E0A845",
    drains: "#F07F63",
    plant: "#6FA662",
    focus: "#7FB6F5",
    none: "none",
  },
  // Tints survive a poor printer; what has to be read is black or nearly so.
  print: {
    desk: "#FFFFFF",
    sheet: "#FFFFFF",
    ink: "#000000",
    soft: "#3D4448",
    hair: "#C4C8C6",
    water: "#C9DFDE",
    waterline: "#0F5254",
    ground: "#F3F1EC",
    hatch: "#9A9388",
    stone: "#E6E2DA",
    stoneLine: "#8C8579",
    held: "#1F5A30",
    part: "#7A4B06",
    drains: "#9C2714",
    plant: "#7C9A70",
    focus: "#000000",
    none: "none",
  },
};

/** Millimetres. `sheet` widths are those of look and feel on a screen; `print` the line groups of ISO 128-2. */
export const penWidths: Readonly<Record<"screen" | "print", Readonly<Record<Pen, number>>>> = {
  screen: { outline: 0.64, part: 0.42, dimension: 0.24, hair: 0.16, pipe: 0.6 },
  print: { outline: 0.5, part: 0.35, dimension: 0.18, hair: 0.13, pipe: 0.5 },
};

/** Named with fallbacks of about the same width, so that the sheet keeps its shape without the face. */
export const fontFamily =
  "'Barlow Semi Condensed', 'Roboto Condensed', 'Arial Narrow', 'Liberation Sans Narrow', Arial, sans-serif";
