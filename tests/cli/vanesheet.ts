import { spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { vi } from "vitest";

const COMMAND = resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs");

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line in a folder as a person does: a process of its own, its output piped. */
export function vanesheetIn(folder: string, args: readonly string[]): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [COMMAND, ...args], {
    encoding: "utf8",
    cwd: folder,
  });
  return { status, out: stdout.trim(), err: stderr.trim() };
}

export function vanesheet(...args: readonly string[]): Ended {
  return vanesheetIn(process.cwd(), args);
}

/** Runs the command line in this process, which is sooner done, with a folder as the working one. */
export async function typedIn(folder: string, args: readonly string[]): Promise<Ended> {
  // Loaded for those who call it: a test that starts processes alone need not wait for it.
  const { runCommandLine } = await import("../../src/cli/main.js");
  const before = process.cwd();
  const out = vi.spyOn(console, "log").mockImplementation(() => undefined);
  const err = vi.spyOn(console, "error").mockImplementation(() => undefined);
  const lines = ({ mock }: typeof out) => mock.calls.map((call) => call.join(" ")).join("\n");
  process.chdir(folder);
  try {
    const status = await runCommandLine(args);
    return { status, out: lines(out), err: lines(err) };
  } finally {
    process.chdir(before);
    out.mockRestore();
    err.mockRestore();
  }
}

const MAIN = new URL("../../build/src/cli/main.js", import.meta.url).href;
const LONGEST_MS = 240_000;
const NOBODY = 65_534;

/** Runs the calls that it reads, and prints how each ended, a line each. */
const RUN_CALLS = `
  const { readFileSync } = await import("node:fs");
  const { runCommandLine } = await import(${JSON.stringify(MAIN)});
  const print = console.log;
  for (const args of JSON.parse(readFileSync(0, "utf8"))) {
    const said = { log: [], error: [] };
    for (const to of ["log", "error"]) console[to] = (...words) => said[to].push(words.join(" "));
    const status = await runCommandLine(args);
    print(JSON.stringify({ status, out: said.log.join("\\n"), err: said.error.join("\\n") }));
  }
`;

/**
 * Runs many calls, one after the other, in one process with a folder as the working one, and requires that it ends by
 * itself: nothing that a call began may still be waited for.
 *
 * @param who - "anybody" may do only what the permissions of files and folders say; the root user, as whom tests run in
 *   many a container, may do everything
 */
export function allTypedIn(
  folder: string,
  calls: readonly (readonly string[])[],
  who: "us" | "anybody",
): readonly Ended[] {
  const isRoot = process.getuid?.() === 0;
  const { stdout, stderr, status, error } = spawnSync(process.execPath, ["--input-type=module", "--eval", RUN_CALLS], {
    cwd: folder,
    encoding: "utf8",
    input: JSON.stringify(calls),
    maxBuffer: 2 ** 26,
    timeout: LONGEST_MS,
    ...(who === "anybody" && isRoot ? { uid: NOBODY, gid: NOBODY } : {}),
  });
  const ended = stdout
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as Ended);
  if (status !== 0 || ended.length !== calls.length) {
    const last = calls[Math.min(ended.length, calls.length - 1)]?.join(" ");
    throw new Error(`The process did not end well (${error?.message ?? status}), at or after ${last}. ${stderr}`);
  }
  return ended;
}
