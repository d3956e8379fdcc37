/** Where the Chromium for the tests comes from: the CHROMIUM variable, else one that the system has, else the one
 *  packed in @sparticuz/chromium (64-bit Linux). If none can be had this throws, so that the tests fail: a browser
 *  test that skips itself looks like one that passed. */
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { type BrowserServer, chromium } from "playwright-core";

const places = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/snap/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
];

// No sandbox: it needs rights that containers and continuous integration do not give. The rest keeps it quiet.
const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

interface Found {
  readonly executablePath: string;
  readonly env?: Record<string, string>;
}

/** Starts a headless Chromium that several test files can connect to, one after the other. */
export async function launchChromium(): Promise<BrowserServer> {
  const { executablePath, env } = await findChromium();
  try {
    return await chromium.launchServer({ executablePath, headless: true, args: quiet, ...(env ? { env } : {}) });
  } catch (error) {
    throw new Error(`The Chromium at ${executablePath} did not start. Set CHROMIUM to one that does.`, {
      cause: error,
    });
  }
}

async function findChromium(): Promise<Found> {
  const named = process.env.CHROMIUM;
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM names ${named}, and there is no such file.`);
    return { executablePath: named };
  }
  const installed = places.find((place) => existsSync(place));
  return installed ? { executablePath: installed } : packed();
}

/** The packed Chromium with the libraries and the font it needs, unpacked once into .cache/chromium. */
async function packed(): Promise<Found> {
  if (process.platform !== "linux" || process.arch !== "x64") {
    throw new Error(
      `No Chromium found, and the packed one is for 64-bit Linux, not ${process.platform} ${process.arch}. ` +
        "Install Chromium or Chrome, or set CHROMIUM to the path of one.",
    );
  }
  const kept = resolve(import.meta.dirname, "../../.cache/chromium");
  if (!existsSync(kept)) {
    try {
      await unpackInto(kept);
    } catch (error) {
      throw new Error(
        "No Chromium found, and the packed one could not be unpacked. Install Chromium or Chrome, or set CHROMIUM to the path of one.",
        { cause: error },
      );
    }
  }
  // Its own list of fonts names folders that are not ours. Written each time: paths in it are whole, and a
  // repository may be moved together with its cache.
  writeFileSync(
    `${kept}/fonts/fonts.conf`,
    `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>${kept}/fonts</dir><cachedir>${kept}/fonts-cache</cachedir></fontconfig>
`,
  );
  const env = Object.fromEntries(Object.entries(process.env).filter((entry): entry is [string, string] => !!entry[1]));
  return {
    executablePath: `${kept}/chromium`,
    env: {
      ...env,
      LD_LIBRARY_PATH: [`${kept}/al2023/lib`, env.LD_LIBRARY_PATH].filter(Boolean).join(":"),
      FONTCONFIG_PATH: `${kept}/fonts`,
    },
  };
}

/** Unpacks beside the place and moves there at the end,
 * so that a broken or a second run never leaves half a browser. */
async function unpackInto(kept: string): Promise<void> {
  const making = `${kept}-${process.pid}`;
  mkdirSync(making, { recursive: true });
  // The package unpacks into the folder for temporary files, and its own libraries only where it believes to run
  // on the service it was made for. Both are asked for through the environment, which is put back afterwards.
  const before = { ...process.env };
  process.env.TMPDIR = making;
  process.env.AWS_LAMBDA_JS_RUNTIME ??= "nodejs22.x";
  try {
    const { default: pack } = await import("@sparticuz/chromium");
    await pack.executablePath();
    if (!existsSync(kept)) renameSync(making, kept);
  } finally {
    for (const name of ["TMPDIR", "AWS_LAMBDA_JS_RUNTIME", "LD_LIBRARY_PATH", "FONTCONFIG_PATH"]) {
      const value = before[name];
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
    rmSync(making, { recursive: true, force: true });
  }
}
