/** The samples, each with a small picture of its own sheet, its title and its lesson. Opening one puts nothing away:
 * one press brings the drawing before back, and a browser that keeps drawings keeps it. */
import { type JSX, useEffect, useRef, useState } from "react";
import { readSectionValue, type Section, solveRunning } from "../../hydraulics/index.ts";
import { type Lesson, lessons } from "../../samples/lessons.ts";
import { openOther } from "../link/openOther.ts";
import type { PaletteName } from "../scene/palette.ts";
import { sectionPicture } from "../svg/sectionPicture.ts";
import { paintPicture } from "./handOutPicture.ts";
import { KeptWords } from "./KeptWords.tsx";
import { useDesk, useProgram } from "./useDesk.ts";
import "./Gallery.css";
import { wholeFigures } from "./wholeFigures.tsx";

const files: Readonly<Record<string, unknown>> = import.meta.glob("../../samples/*.json", {
  eager: true,
  import: "default",
});

interface Sample extends Lesson {
  readonly section: Section;
}

const samples: readonly Sample[] = lessons.flatMap((lesson) => {
  const read = readSectionValue(files[`../../samples/${lesson.file}`]);
  return read.ok ? [{ ...lesson, section: read.value }] : [];
});

export function GallerySlip(): JSX.Element {
  const { desk } = useProgram();
  const theme = useDesk((state) => state.view.theme);
  const open = ({ section, look, units }: Sample): void => {
    openOther(desk, section, look);
    if (units) desk.look((view) => ({ ...view, units }));
  };
  return (
    <>
      <p className="caution">
        Invented drawings, one lesson each. <KeptWords />
      </p>
      <ul className="gallery">
        {samples.map((sample, i) => (
          <li key={sample.file}>
            <button type="button" onClick={() => open(sample)}>
              <Picture sample={sample} theme={theme} turn={i} />
              <b>{sample.section.title}</b>
              <span>{wholeFigures(sample.lesson)}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** mm; the picture's own paper */
const paper = { width: 112, height: 62 };

/** Painted once a theme and size, however often the slip is opened. */
const painted = new Map<string, HTMLCanvasElement>();

function pictureOf({ file, section }: Sample, theme: PaletteName, width: number): HTMLCanvasElement {
  const key = `${file} ${theme} ${width}`;
  const known = painted.get(key);
  if (known) return known;
  const canvas = document.createElement("canvas");
  const { running } = solveRunning(section);
  paintPicture(canvas, sectionPicture({ section, running, theme, paper }), width / paper.width);
  painted.set(key, canvas);
  return canvas;
}

/** One picture after the other, so that the slip is there at once. */
function Picture({ sample, theme, turn }: { sample: Sample; theme: PaletteName; turn: number }): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [isDrawn, setDrawn] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => {
      const shown = canvas.current;
      if (!shown) return;
      const picture = pictureOf(sample, theme, Math.round(Math.max(shown.clientWidth, 200) * window.devicePixelRatio));
      shown.width = picture.width;
      shown.height = picture.height;
      shown.getContext("2d")?.drawImage(picture, 0, 0);
      setDrawn(true);
    }, 8 * turn);
    return () => clearTimeout(timer);
  }, [sample, theme, turn]);
  return <canvas ref={canvas} data-drawn={isDrawn} />;
}
