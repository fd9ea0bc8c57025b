import { spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { vi } from "vitest";
import { runCommandLine } from "../../src/cli/main.js";

const COMMAND = resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs");

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line in a folder as a person does: a process of its own, its output piped. */
export function vanesheetIn(folder: string, args: readonly string[], as: { readonly uid?: number } = {}): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [COMMAND, ...args], {
    encoding: "utf8",
    cwd: folder,
    ...as,
  });
  return { status, out: stdout.trim(), err: stderr.trim() };
}

export function vanesheet(...args: readonly string[]): Ended {
  return vanesheetIn(process.cwd(), args);
}

/** Runs the command line in this process, which is sooner done, with a folder as the working one. */
export async function typedIn(folder: string, args: readonly string[]): Promise<Ended> {
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
