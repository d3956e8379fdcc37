import type { Desk } from "../state/desk.ts";

/** Lets the browser keep the program, so that it starts without a network; says when a newer one lies ready. In a build
 * only. A browser that refuses (a private window, a page that is a file) still draws, with a network. */
export function keepForOffline(desk: Desk): void {
  // Not PROD, which follows NODE_ENV: a build made for tests is a build.
  if (import.meta.env.MODE === "development" || !("serviceWorker" in navigator) || !window.isSecureContext) return;
  const begin = (): void => void register(desk).catch(() => undefined);
  // First the sheet, then what is kept for later.
  if (document.readyState === "complete") begin();
  else window.addEventListener("load", begin, { once: true });
}

async function register(desk: Desk): Promise<void> {
  const wasKept = navigator.serviceWorker.controller !== null;
  const registration = await navigator.serviceWorker.register("./offline.js");
  const offer = (worker: ServiceWorker | null): void => {
    if (!worker || !wasKept) return;
    if (worker.state === "installed") tell(desk, worker);
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed") tell(desk, worker);
    });
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => offer(registration.installing));
}

function tell(desk: Desk, worker: ServiceWorker): void {
  desk.say({
    text: "A newer Holdwater lies ready. The drawing is kept.",
    tone: "plain",
    act: {
      label: "Change to it",
      run: () => {
        navigator.serviceWorker.addEventListener("controllerchange", () => window.location.reload(), { once: true });
        worker.postMessage("take over");
      },
    },
  });
}
