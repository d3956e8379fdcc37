/** A state of the drawing as a small picture with its key figures under it. */
import { type JSX, useEffect, useRef } from "react";
import type { Running, Section } from "../../../hydraulics/index.ts";
import { sectionPicture } from "../../svg/sectionPicture.ts";
import { paintPicture } from "../handOutPicture.ts";
import { useDesk } from "../useDesk.ts";

export interface StatePictureProps {
  readonly title: string;
  readonly section: Section;
  readonly running: Running | null;
}

/** mm; the picture's own paper */
const paper = { width: 112, height: 52 };

export function StatePicture({ title, section, running }: StatePictureProps): JSX.Element {
  const theme = useDesk((state) => state.view.theme);
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const shown = canvas.current;
    if (!shown) return;
    const width = Math.max(shown.clientWidth, 160) * window.devicePixelRatio;
    paintPicture(shown, sectionPicture({ section, running, theme, paper }), width / paper.width);
  }, [section, running, theme]);
  return (
    <figure className="state-picture">
      <figcaption>{title}</figcaption>
      <canvas ref={canvas} role="img" aria-label={`The section ${title}`} />
    </figure>
  );
}
