/** Makes the service worker of a build: a list of the build's files and what to do with them. In builds only; the
 * development server serves sources that change. */
import { createHash } from "node:crypto";
import type { Plugin } from "vite";

export const workerFile = "offline.js";

export const worksOffline: Plugin = {
  name: "holdwater:offline",
  apply: "build",
  generateBundle: {
    order: "post",
    handler(_, bundle) {
      const files = Object.values(bundle)
        .filter(({ fileName }) => !fileName.endsWith(".map"))
        .sort((a, b) => (a.fileName < b.fileName ? -1 : 1));
      const hash = createHash("sha256");
      for (const file of files) {
        hash.update(file.fileName);
        hash.update(file.type === "chunk" ? file.code : file.source);
      }
      // The page is kept under its folder's address; a browser that has service workers reads woff2.
      const kept = files.filter(({ fileName }) => !/\.(woff|html)$/.test(fileName));
      const names = ["./", ...kept.map(({ fileName }) => `./${fileName}`)];
      const source = workerSource(names, hash.digest("hex").slice(0, 16));
      this.emitFile({ type: "asset", fileName: workerFile, source });
    },
  },
};

/** One cache a build, named by a hash of its files. A new build is fetched whole beside the old one and takes over when
 * the page says so, or when no page of the old one is open any more; then the old cache goes. Other caches of the same
 * address are not ours and stay. */
const workerSource = (files: readonly string[], hash: string): string => `const files = ${JSON.stringify(files)};
const kind = "holdwater ";
const name = kind + ${JSON.stringify(hash)};

self.addEventListener("install", (event) => {
  // Past the browser's own cache: a page of one build and a script of another must not meet.
  const fresh = files.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(name).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const scope = self.registration.scope;
  const drop = async () => {
    for (const other of await caches.keys()) {
      if (other === name || !other.startsWith(kind)) continue;
      const cache = await caches.open(other);
      // Two copies may live under one address: each drops its own only.
      if (await cache.match(scope, { ignoreVary: true })) await caches.delete(other);
    }
    await self.clients.claim();
  };
  event.waitUntil(drop());
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== self.location.origin) return;
  const wanted = request.mode === "navigate" ? self.registration.scope : request;
  const answer = async () => {
    const cache = await caches.open(name);
    const kept = await cache.match(wanted, { ignoreVary: true, ignoreSearch: request.mode === "navigate" });
    return kept ?? fetch(request);
  };
  event.respondWith(answer());
});
`;
