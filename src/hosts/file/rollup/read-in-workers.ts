import { Worker } from "node:worker_threads";
import { failed, type ReadAnswer, type ReadRequest, readJobFile } from "./read-job-file.js";

/** So few workbooks are read sooner than a worker starts. */
const FEW = 4;

/**
 * A workbook that needs more is left out. With less than 2 GB the heap is collected in full so often that reading takes a
 * sixth longer (measured with Node 20); what a file may unfold to has its own, lower limits.
 */
const WORKER_LIMITS = { maxOldGenerationSizeMb: 2048, maxYoungGenerationSizeMb: 32 };

/**
 * Reads workbooks in several threads, one at a time in each, and hands every answer on before the next one is asked of
 * the same thread. A thread that dies costs the workbook that it was reading.
 */
export async function readInWorkers(
  requests: readonly ReadRequest[],
  workers: number,
  take: (answer: ReadAnswer, request: ReadRequest) => Promise<void>,
): Promise<void> {
  if (requests.length <= FEW) {
    for (const request of requests) await take(await readJobFile(request), request);
    return;
  }
  const waiting = requests.values();
  await Promise.all(Array.from({ length: Math.min(workers, requests.length) }, () => work(waiting, take)));
}

async function work(
  waiting: IterableIterator<ReadRequest>,
  take: (answer: ReadAnswer, request: ReadRequest) => Promise<void>,
): Promise<void> {
  let worker: Worker | undefined;
  try {
    for (const request of waiting) {
      worker ??= new Worker(new URL("./read-worker.js", import.meta.url), { resourceLimits: WORKER_LIMITS });
      const answer = await asked(worker, request);
      if (answer instanceof Error) worker = undefined;
      await take(answer instanceof Error ? failed(request, answer) : answer, request);
    }
  } finally {
    await worker?.terminate();
  }
}

/** Returns the worker's answer, or the error of which it died. */
function asked(worker: Worker, request: ReadRequest): Promise<ReadAnswer | Error> {
  return new Promise((resolve) => {
    const settle = (outcome: ReadAnswer | Error) => {
      worker.off("message", settle);
      worker.off("error", settle);
      worker.off("exit", exited);
      resolve(outcome);
    };
    const exited = () => settle(new Error("its reader stopped"));
    worker.on("message", settle);
    worker.on("error", settle);
    worker.on("exit", exited);
    worker.postMessage(request);
  });
}
