/** Before the first browser test: builds the editor, serves the build and starts one Chromium for all files. */
import type { TestProject } from "vitest/node";
import { launchChromium } from "./chromium.ts";
import { served } from "./served.ts";

declare module "vitest" {
  export interface ProvidedContext {
    readonly address: string;
    readonly browser: string;
    /** why there is no page to test, or nothing */
    readonly trouble: string;
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const ends: (() => unknown)[] = [];
  const endAll = async () => {
    for (const end of ends.reverse()) await end();
  };
  try {
    const page = await served("tested");
    ends.push(page.close);
    const browser = await launchChromium();
    ends.push(() => browser.close());
    project.provide("address", page.address);
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
