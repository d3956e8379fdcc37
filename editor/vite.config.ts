import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { worksOffline } from "./offline/plugin.ts";

// What the built page may do: run and show its own files, draw pictures it made itself, and reach no other place.
const contentRules = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Writes the content rules into the page. In builds only: the development server injects inline styles. */
const statesContentRules: Plugin = {
  name: "holdwater:content-rules",
  apply: "build",
  transformIndexHtml: () => [
    {
      tag: "meta",
      attrs: { "http-equiv": "Content-Security-Policy", content: contentRules },
      injectTo: "head-prepend",
    },
  ],
};

export default defineConfig({
  root: import.meta.dirname,
  // Relative, so that the built folder works from any place on a server.
  base: "./",
  cacheDir: "../.cache/vite",
  plugins: [react(), statesContentRules, worksOffline],
  // hydraulics/, samples/ and the fonts lie beside this folder.
  server: { fs: { allow: [".."] } },
  build: {
    outDir: "../.dist",
    emptyOutDir: true,
    target: "es2022",
    // A font or picture inlined as data: would be refused by the content rules.
    assetsInlineLimit: 0,
  },
  worker: { format: "es" },
});
