import { type JSX, lazy, Suspense } from "react";

const Gallery = lazy(async () => ({ default: (await import("./Gallery.tsx")).GallerySlip }));

/** The samples are fetched when they are asked for. */
export const GalleryLater = (): JSX.Element => (
  <Suspense fallback={<p>Samples are being fetched.</p>}>
    <Gallery />
  </Suspense>
);
