import { Console } from "node:console";
import { writeSync } from "node:fs";
import { Writable } from "node:stream";
import { EXIT, type ExitStatus } from "./command.js";
import { shownControls } from "./shown-controls.js";

/** How long to wait for whoever reads a pipe that is full. */
const WAIT_MS = 5;

/** Writes all of it: a disk that is nearly full takes a part without an error, and only the next write fails. */
function writeWhole(descriptor: number, text: string): void {
  const bytes = Buffer.from(text);
  let written = 0;
  while (written < bytes.length) {
    try {
      written += writeSync(descriptor, bytes, written);
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "EAGAIN") throw cause;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, WAIT_MS);
    }
  }
}

interface ProcessOutput {
  readonly stream: Writable;
  /** What the first failure was; nothing is written after it. */
  readonly failure: () => NodeJS.ErrnoException | undefined;
}

/** Node makes a stream of its own only when it is asked for, which takes a while. */
function outputOf(terminal: () => NodeJS.WriteStream, descriptor: 1 | 2): ProcessOutput {
  let failure: NodeJS.ErrnoException | undefined;
  const stream = new Writable({
    decodeStrings: false,
    write(text: string, _, done) {
      try {
        const shown = shownControls(text);
        // A terminal knows what to do with letters beyond ASCII on each system; a file and a pipe take the bytes.
        if (terminal().isTTY) terminal().write(shown);
        else if (failure === undefined) writeWhole(descriptor, shown);
      } catch (cause) {
        failure = cause as NodeJS.ErrnoException;
      }
      done();
    },
  });
  return { stream, failure: () => failure };
}

/**
 * Runs a command with its prints going to the process's own streams, whole and without control characters.
 *
 * @returns The command's status; where its result could not be printed, that of an error
 */
export async function printedByProcess(command: () => Promise<ExitStatus>): Promise<ExitStatus> {
  const out = outputOf(() => process.stdout, 1);
  const err = outputOf(() => process.stderr, 2);
  globalThis.console = new Console({ stdout: out.stream, stderr: err.stream });
  const status = await command();
  const failure = out.failure();
  if (failure === undefined) return status;
  // Whoever closed the pipe wanted no more, and knows it.
  if (failure.code !== "EPIPE") {
    const why = failure.code === "ENOSPC" ? "the disk is full" : failure.message;
    console.error(`vanesheet: the result could not be printed whole: ${why}.`);
  }
  return status === EXIT.done ? EXIT.found : status;
}
