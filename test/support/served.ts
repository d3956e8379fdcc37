/** The built page on a server of its own, in a folder that neither uses nor replaces what `npm run build` made. */
import { rmSync } from "node:fs";
import { resolve } from "node:path";
import { build, preview } from "vite";

export interface Served {
  readonly address: string;
  close(): Promise<void>;
}

/** @param name of the folder under `.cache/`; the process's number is added */
export async function served(name: string): Promise<Served> {
  const configFile = resolve(import.meta.dirname, "../../editor/vite.config.ts");
  const outDir = resolve(import.meta.dirname, `../../.cache/${name}-${process.pid}`);
  const remove = () => rmSync(outDir, { recursive: true, force: true });
  // Vitest says NODE_ENV is "test", and with that the page would be built with React's slow checks: not what people get.
  const before = process.env.NODE_ENV;
  try {
    process.env.NODE_ENV = "production";
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
    process.env.NODE_ENV = before;
  }
}
