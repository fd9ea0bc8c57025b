import { Writable } from "node:stream";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type BarStream, withProgress } from "../../src/cli/progress.js";

/** Keeps what is written; says of itself that it is a terminal, or not. */
function screen(isTTY: boolean): { readonly stream: BarStream; readonly written: () => string } {
  const pieces: string[] = [];
  const stream = new Writable({
    write(chunk, _encoding, done) {
      pieces.push(String(chunk));
      done();
    },
  });
  return { stream: Object.assign(stream, { isTTY, columns: 80 }), written: () => pieces.join("") };
}

describe("the progress bar", () => {
  let nowMs = 0;
  beforeEach(() => {
    nowMs = 0;
    vi.spyOn(performance, "now").mockImplementation(() => nowMs);
  });
  afterEach(() => vi.restoreAllMocks());

  const work = (perStepMs: number) => (report: (done: number, total: number, doing: string) => void) => {
    for (let step = 1; step <= 4; step += 1) {
      nowMs += perStepMs;
      report(step, 4, "calculating");
    }
    return "done";
  };

  it("shows how far long work has come, what is being done, and takes itself away", async () => {
    const { stream, written } = screen(true);
    expect(await withProgress(work(400), stream)).toBe("done");
    expect(written()).toContain("75 % calculating");
    expect(written()).not.toContain("50 % calculating");
  });

  it("stays away when the work is quick", async () => {
    const { stream, written } = screen(true);
    await withProgress(work(200), stream);
    expect(written()).toBe("");
  });

  it("stays away where there is no terminal", async () => {
    const { stream, written } = screen(false);
    expect(await withProgress(work(4000), stream)).toBe("done");
    expect(written()).toBe("");
  });

  it("gives the cursor back when the work fails", async () => {
    const { stream, written } = screen(true);
    const failing = withProgress((report) => {
      work(1000)(report);
      throw new Error("the disk is full");
    }, stream);
    await expect(failing).rejects.toThrow("the disk is full");
    expect(written()).toContain("\u001b[?25h");
  });
});
