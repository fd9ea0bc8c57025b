import { parentPort, workerData } from "node:worker_threads";
import { zlibCodec } from "../../../../src/hosts/file/index.js";
import { behindGate, type EndingGate } from "../../../../src/hosts/file/rollup/ending-gate.js";

/** Where the thread is: in the middle of unpacking, or done with it. */
export const UNPACKING_STEPS = { INSIDE: 1, AFTER: 2 } as const;

/** What the thread is given. */
export interface UnpackingThread {
  readonly gate: EndingGate;
  /** The step that it was last seen at. */
  readonly step: Int32Array<SharedArrayBuffer>;
  readonly takesMs: number;
}

/* A thread that unpacks slowly, again and again. */
if (parentPort !== null) {
  const { gate, step, takesMs } = workerData as UnpackingThread;
  const slow = behindGate(gate, {
    ...zlibCodec,
    inflate(packed) {
      Atomics.store(step, 0, UNPACKING_STEPS.INSIDE);
      parentPort?.postMessage(UNPACKING_STEPS.INSIDE);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, takesMs);
      Atomics.store(step, 0, UNPACKING_STEPS.AFTER);
      return packed;
    },
  });
  for (;;) slow.inflate(new Uint8Array(1), 1);
}
