/** The built page on a server of its own, in a folder that neither uses nor replaces what `npm run build` made. */
import { rmSync } from "node:fs";
import { resolve } from "node:path";
import { build, preview } from "vite";

export interface Served {
  readonly address: string;
  close(): Promise<void>;
}

/** @param name of the folder under `.cache/`; the process's number is added
 *  @param react which of its builds: production is what `npm run build` makes; development says on the console what it
 *    finds wrong in the page's code, and takes twice as long to draw */
export async function served(name: string, react: "production" | "development" = "production"): Promise<Served> {
  const configFile = resolve(import.meta.dirname, "../../editor/vite.config.ts");
  const outDir = resolve(import.meta.dirname, `../../.cache/${name}-${process.pid}`);
  const remove = () => rmSync(outDir, { recursive: true, force: true });
  // Vite takes it from here, and the test runner has set it to "test", which gives the development build.
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = react;
  try {
    await build({ configFile, logLevel: "error", build: { outDir, emptyOutDir: true } });
    const server = await preview({
      configFile,
      logLevel: "error",
      build: { outDir },
      preview: { host: "localhost", port: 0, open: false },
    });
    const close = async () => {
      await server.close();
      remove();
    };
    const address = server.resolvedUrls?.local[0];
    if (address) return { address, close };
    await close();
    throw new Error("The preview server gave no address.");
  } catch (error) {
    remove();
    throw error;
  } finally {
    if (before === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = before;
  }
}
