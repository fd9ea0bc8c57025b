import { once } from "node:events";
import { Worker } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import { closeGate, endingGate } from "../../../../src/hosts/file/rollup/ending-gate.js";
import { UNPACKING_STEPS, type UnpackingThread } from "./unpacking-thread.js";

const THREAD = new URL("../../../../build/tests/hosts/file/rollup/unpacking-thread.js", import.meta.url);

async function unpacking(takesMs: number): Promise<{ thread: Worker; data: UnpackingThread }> {
  const data = { gate: endingGate(), step: new Int32Array(new SharedArrayBuffer(4)), takesMs };
  const thread = new Worker(THREAD, { workerData: data });
  await once(thread, "message");
  return { thread, data };
}

describe("a thread that unpacks", () => {
  it("is ended when what it unpacks is done, and unpacks nothing more", async () => {
    const { thread, data } = await unpacking(300);
    closeGate(data.gate);
    expect(Atomics.load(data.step, 0)).toBe(UNPACKING_STEPS.AFTER);
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(Atomics.load(data.step, 0)).toBe(UNPACKING_STEPS.AFTER);
    expect(await thread.terminate()).toBe(1);
  });

  it("is not waited for for ever where it died in the middle", async () => {
    const { thread, data } = await unpacking(60_000);
    await thread.terminate();
    const before = performance.now();
    closeGate(data.gate);
    expect(performance.now() - before).toBeLessThan(10_000);
  });
});
