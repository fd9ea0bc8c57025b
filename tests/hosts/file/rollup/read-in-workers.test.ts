import { EventEmitter } from "node:events";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { READER_READY, type ReadAnswer, type ReadRequest } from "../../../../src/hosts/file/rollup/read-answer.js";
import { readInWorkers } from "../../../../src/hosts/file/rollup/read-in-workers.js";

/** How long a thread takes to start, and how long to read a file [ms]. */
const takes = vi.hoisted(() => ({ startMs: 0, readMs: 0 }));

vi.mock("node:worker_threads", () => ({
  Worker: class extends EventEmitter {
    private readonly ready = new Promise<void>((resolve) =>
      setTimeout(() => {
        this.emit("message", READER_READY);
        resolve();
      }, takes.startMs),
    );
    postMessage({ path, modifiedMs }: ReadRequest): void {
      const answer = { kind: "unchanged", path, modifiedMs } satisfies ReadAnswer;
      void this.ready.then(() => setTimeout(() => this.emit("message", answer), takes.readMs));
    }
    async terminate(): Promise<number> {
      return 0;
    }
  },
}));

const requests = ["a.xlsx", "b.xlsx", "c.xlsx"].map(
  (file): ReadRequest => ({
    path: `/jobs/${file}`,
    file,
    bytes: 1,
    modifiedMs: 1,
    knownSha256: "",
    isOpenElsewhere: false,
  }),
);

async function kindsOf(startMs: number, readMs: number, mostSeconds: number): Promise<readonly string[]> {
  Object.assign(takes, { startMs, readMs });
  const kinds: string[] = [];
  const reading = readInWorkers(requests, 2, mostSeconds, async ({ kind }) => void kinds.push(kind));
  await vi.runAllTimersAsync();
  await reading;
  return kinds;
}

describe("workbooks that are read in threads", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it("are not given up because a busy machine starts the threads late", async () => {
    expect(await kindsOf(90_000, 59_000, 60)).toEqual(["unchanged", "unchanged", "unchanged"]);
  });

  it("are given up when reading itself takes too long, each of them", async () => {
    expect(await kindsOf(0, 61_000, 60)).toEqual(["read", "read", "read"]);
  });
});
