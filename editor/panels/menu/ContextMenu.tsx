/** The menu of a part or a place, after the menu pattern of WAI-ARIA: arrow keys, Home, End, a letter; Escape and
 * Tab leave it, and the focus goes back to where it was. */
import { type JSX, type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from "react";
import { flushSync } from "react-dom";
import type { Px } from "../../canvas/projection.ts";
import "./menu.css";
import type { Menu } from "./menuItems.ts";

export interface ContextMenuProps {
  readonly menu: Menu;
  readonly label: string;
  readonly at: Px;
  readonly close: () => void;
}

export function ContextMenu({ menu, label, at, close }: ContextMenuProps): JSX.Element {
  const box = useRef<HTMLDivElement>(null);
  const [place, setPlace] = useState<Px>(at);
  const before = useRef<Element | null>(null);
  const items = (): HTMLElement[] => [...(box.current?.querySelectorAll<HTMLElement>("[role=menuitem]") ?? [])];

  // Inside the window, the hand's place never under an item.
  useLayoutEffect(() => {
    const size = box.current?.getBoundingClientRect();
    if (!size) return;
    const fits = (start: number, length: number, window: number): number =>
      start + length + 8 <= window ? start : Math.max(8, Math.min(start - length - 4, window - length - 8));
    setPlace([fits(at[0] + 2, size.width, innerWidth), fits(at[1] + 2, size.height, innerHeight)]);
  }, [at]);

  useEffect(() => {
    before.current = document.activeElement;
    box.current?.querySelector<HTMLElement>("[role=menuitem]")?.focus();
    const elsewhere = (event: PointerEvent): void => {
      if (event.target instanceof Node && !box.current?.contains(event.target)) close();
    };
    window.addEventListener("pointerdown", elsewhere, true);
    window.addEventListener("wheel", close);
    window.addEventListener("resize", close);
    return () => {
      window.removeEventListener("pointerdown", elsewhere, true);
      window.removeEventListener("wheel", close);
      window.removeEventListener("resize", close);
      const was = before.current;
      if (was instanceof HTMLElement && was.isConnected && was !== document.body) was.focus();
    };
  }, [close]);

  const onKey = (event: KeyboardEvent): void => {
    // The sheet's own keys rest while the menu is open.
    event.stopPropagation();
    const all = items();
    const here = all.indexOf(document.activeElement as HTMLElement);
    const to = (index: number): void => all[(index + all.length) % all.length]?.focus();
    switch (event.key) {
      case "ArrowDown":
        to(here + 1);
        break;
      case "ArrowUp":
        to(here - 1);
        break;
      case "Home":
        to(0);
        break;
      case "End":
        to(-1);
        break;
      case "Escape":
      case "Tab":
        close();
        break;
      default: {
        if (event.key.length !== 1 || event.key === " " || event.ctrlKey || event.metaKey || event.altKey) return;
        const letter = event.key.toLowerCase();
        const after = [...all.slice(here + 1), ...all.slice(0, here + 1)];
        after.find((item) => item.textContent?.toLowerCase().startsWith(letter))?.focus();
      }
    }
    event.preventDefault();
  };

  return (
    <div
      ref={box}
      className="context-menu"
      role="menu"
      aria-label={label}
      tabIndex={-1}
      style={{ left: place[0], top: place[1] }}
      onKeyDown={onKey}
      onContextMenu={(event) => event.preventDefault()}
    >
      {menu.map((group, g) => [
        g > 0 ? <hr key={`line ${group[0]?.label}`} /> : null,
        ...group.map(({ label: word, keys, act }) => (
          <button
            key={word}
            type="button"
            role="menuitem"
            tabIndex={-1}
            {...(keys ? { "aria-keyshortcuts": ariaKeys(keys) } : {})}
            onPointerMove={(event) => event.currentTarget.focus({ preventScroll: true })}
            onClick={() => {
              // The focus goes back first: what is done may move it on.
              flushSync(close);
              act();
            }}
          >
            <span>{word}</span>
            {keys ? (
              <span className="keys" aria-hidden="true">
                {keys}
              </span>
            ) : null}
          </button>
        )),
      ])}
    </div>
  );
}

const ariaKeys = (keys: string): string => keys.replace("Ctrl ", "Control+");
