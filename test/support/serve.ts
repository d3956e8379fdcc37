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
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const configFile = resolve(import.meta.dirname, "../../editor/vite.config.ts");
  // A folder of its own: the tests neither use nor replace what `npm run build` made.
  const outDir = resolve(import.meta.dirname, `../../.cache/tested-${process.pid}`);
  const forget = () => rmSync(outDir, { recursive: true, force: true });
  try {
    await build({ configFile, logLevel: "error", build: { outDir, emptyOutDir: true } });
    const browser = await launchChromium();
    const server = await preview({
      configFile,
      logLevel: "error",
      build: { outDir },
      preview: { host: "localhost", port: 0, open: false },
    });
    const address = server.resolvedUrls?.local[0];
    if (!address) throw new Error("The preview server gave no address.");
    project.provide("address", address);
    project.provide("browser", browser.wsEndpoint());
    return async () => {
      await browser.close();
      await server.close();
      forget();
    };
  } catch (error) {
    forget();
    throw error;
  }
}
