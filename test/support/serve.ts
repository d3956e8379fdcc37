/** Before the first browser test: builds the editor, serves the build and starts one Chromium for all files. */
import { rmSync } from "node:fs";
import { resolve } from "node:path";
import { build, preview } from "vite";
import type { TestProject } from "vitest/node";
import { launchChromium } from "./chromium.ts";

declare module "vitest" {
  export interface ProvidedContext {
    readonly address: string;
    readonly browser: string;
    /** why there is no page to test, or nothing */
    readonly trouble: string;
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const configFile = resolve(import.meta.dirname, "../../editor/vite.config.ts");
  // A folder of its own: the tests neither use nor replace what `npm run build` made.
  const outDir = resolve(import.meta.dirname, `../../.cache/tested-${process.pid}`);
  const ends: (() => unknown)[] = [() => rmSync(outDir, { recursive: true, force: true })];
  const endAll = async () => {
    for (const end of ends.reverse()) await end();
  };
  try {
    await build({ configFile, logLevel: "error", build: { outDir, emptyOutDir: true } });
    const server = await preview({
      configFile,
      logLevel: "error",
      build: { outDir },
      preview: { host: "localhost", port: 0, open: false },
    });
    ends.push(() => server.close());
    const browser = await launchChromium();
    ends.push(() => browser.close());
    const address = server.resolvedUrls?.local[0];
    if (!address) throw new Error("The preview server gave no address.");
    project.provide("address", address);
    project.provide("browser", browser.wsEndpoint());
    project.provide("trouble", "");
    return endAll;
  } catch (error) {
    await endAll();
    // Thrown here it would end the whole run with no test counted. So each browser test fails with it instead.
    project.provide("trouble", inWords(error));
    return async () => {};
  }
}

function inWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.cause === undefined ? error.message : `${error.message}\n${inWords(error.cause)}`;
}
