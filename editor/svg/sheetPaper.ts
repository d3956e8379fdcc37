/** The papers a sheet is printed on, lying. A small one is laid out like one that is larger by `shrink` and drawn
 * smaller, so that its letters keep their proportion to the frame and stay readable: 2.4 mm on A4. */
export type PaperName = "A4" | "A3" | "Letter";

export interface SheetPaper {
  /** mm */
  readonly width: number;
  readonly height: number;
  readonly shrink: number;
}

/** ISO 216; ANSI/ASME Y14.1 size A (8.5 in by 11 in), to the tenth of a millimetre. */
export const sheetPapers: Readonly<Record<PaperName, SheetPaper>> = {
  A4: { width: 297, height: 210, shrink: 1.25 },
  A3: { width: 420, height: 297, shrink: 1 },
  Letter: { width: 279.4, height: 215.9, shrink: 1.25 },
};
