// Makes node_modules agree with package.json and package-lock.json, installing only when it does not.
// Run at the head of each npm script, not as `pretest` or `prestart`: npm skips those for people who set
// `ignore-scripts`. Needs Node alone, because on a fresh clone there is nothing else.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

const wanted = [20, 19];
const have = process.versions.node.split(".").map(Number);
if (have[0] < wanted[0] || (have[0] === wanted[0] && have[1] < wanted[1])) {
  console.error(`Holdwater needs Node ${wanted.join(".")} or newer; this is Node ${process.versions.node}.`);
  process.exit(1);
}

const read = (path) => (existsSync(path) ? JSON.parse(readFileSync(path, "utf8")) : null);
const listsOf = (entry) =>
  JSON.stringify(["dependencies", "devDependencies"].map((key) => Object.entries(entry?.[key] ?? {}).sort()));

/** Whether the lock was made from the package.json that lies here. */
function lockFitsPackage() {
  return listsOf(read("package.json")) === listsOf(read("package-lock.json")?.packages?.[""]);
}

/** Whether what is installed is what the lock says. npm writes node_modules/.package-lock.json last, so a broken
 *  install leaves none. Packages for other platforms are in the lock as optional and are rightly missing. */
function installedFitsLock() {
  const locked = read("package-lock.json")?.packages;
  const installed = read("node_modules/.package-lock.json")?.packages;
  if (!locked || !installed) return false;
  return Object.entries(locked).every(([path, entry]) => {
    if (path === "") return true;
    const there = installed[path];
    if (!there) return entry.optional === true;
    return there.version === entry.version && there.integrity === entry.integrity && existsSync(path);
  });
}

const npm = (...args) =>
  // npm is a .cmd file on Windows, which only a shell starts.
  spawnSync("npm", [...args, "--no-audit", "--no-fund"], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  }).status === 0;

if (!lockFitsPackage() || !installedFitsLock()) {
  console.error("Installing what is missing …");
  const done = (lockFitsPackage() && npm("ci")) || npm("install");
  if (!done) {
    console.error("The packages could not be installed: npm's own message is above.");
    process.exit(1);
  }
}
