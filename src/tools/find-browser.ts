import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** No window is ever opened: the program that has none comes first, and costs least. */
const LINUX_PROGRAMS = [
  "chromium-headless-shell",
  "google-chrome",
  "google-chrome-stable",
  "chromium",
  "chromium-browser",
  "microsoft-edge",
];

const MAC_PROGRAMS = ["Google Chrome", "Chromium", "Microsoft Edge"].map(
  (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
);

const WINDOWS_PROGRAMS = [
  "Google\\Chrome\\Application\\chrome.exe",
  "Chromium\\Application\\chrome.exe",
  "Microsoft\\Edge\\Application\\msedge.exe",
];

function usualPaths(): readonly string[] {
  if (process.platform === "darwin") return MAC_PROGRAMS;
  if (process.platform === "win32") {
    const folders = ["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].map((name) => process.env[name]);
    return folders.flatMap((folder) => (folder ? WINDOWS_PROGRAMS.map((program) => join(folder, program)) : []));
  }
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  return LINUX_PROGRAMS.flatMap((program) => folders.map((folder) => join(folder, program)));
}

/**
 * Returns the path of a Chrome, Chromium or Edge that is installed here; `CHROME_PATH` names another.
 *
 * @throws {Error} When `CHROME_PATH` names nothing, or no browser stands at its usual place
 */
export function findBrowser(): string {
  const named = process.env["CHROME_PATH"];
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROME_PATH is ${named}, and no file is there. Correct it, or unset it.`);
  }
  const found = usualPaths().find((path) => existsSync(path));
  if (found) return found;
  throw new Error("No Chrome, Chromium or Edge was found. Install one, or set CHROME_PATH to its program file.");
}
