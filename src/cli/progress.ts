import type { WriteStream } from "node:tty";
import { onOneLine } from "./shown-controls.js";

/** Work that is done sooner shows no bar. */
const QUIET_MS = 1000;

/** Says how far a piece of work has come, and what is being done. */
export type Report = (done: number, total: number, doing: string) => void;

/** Where a bar is drawn: only a terminal can take one back. */
export type BarStream = Pick<WriteStream, "isTTY"> & NodeJS.WritableStream;

/**
 * Does a piece of work and shows a bar while it takes longer than a second; the bar is gone when the work is done or has
 * failed. Nothing is shown where the error stream is no terminal.
 *
 * @param work - Reports as often as it likes; the bar is redrawn at most ten times a second
 * @param stream - Where the bar is drawn
 */
export async function withProgress<T>(
  work: (report: Report) => T | Promise<T>,
  stream: BarStream = process.stderr,
): Promise<T> {
  if (stream.isTTY !== true) return work(() => undefined);
  const start = performance.now();
  const { Presets, SingleBar } = await import("cli-progress");
  const format = "{bar} {percentage} % {doing}";
  const bar = new SingleBar({ format, stream, clearOnComplete: true, hideCursor: true }, Presets.shades_classic);
  let isShown = false;
  try {
    return await work((done, total, doing) => {
      if (isShown) {
        bar.setTotal(total);
        bar.update(done, { doing: onOneLine(doing) });
      } else if (performance.now() - start >= QUIET_MS) {
        isShown = true;
        bar.start(total, done, { doing: onOneLine(doing) });
      }
    });
  } finally {
    if (isShown) bar.stop();
  }
}
