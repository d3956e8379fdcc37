/** Windows of this program tell each other which drawing they have open and when they changed it. Only words: what
 * keeps a drawing from being overwritten is the count on the shelf, whether or not a word arrived. */

type Told = { readonly says: "opened" | "also" | "changed"; readonly drawing: string };

export interface OtherWindows {
  opened(drawing: string): void;
  changed(drawing: string): void;
  close(): void;
}

export interface HeardBy {
  /** the drawing open here */
  readonly open: () => string;
  /** another window has the drawing open too */
  readonly shared: () => void;
  /** another window has changed a drawing */
  readonly changed: (drawing: string) => void;
}

export function otherWindows(heard: HeardBy): OtherWindows {
  // A browser without channels still keeps drawings apart by their counts.
  const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("holdwater drawings");
  const tell = (told: Told): void => channel?.postMessage(told);
  if (channel)
    channel.onmessage = ({ data }: MessageEvent<Told>) => {
      if (data.says === "changed") return heard.changed(data.drawing);
      if (data.drawing !== heard.open()) return;
      if (data.says === "opened") tell({ says: "also", drawing: data.drawing });
      heard.shared();
    };
  return {
    opened: (drawing) => tell({ says: "opened", drawing }),
    changed: (drawing) => tell({ says: "changed", drawing }),
    close: () => channel?.close(),
  };
}
