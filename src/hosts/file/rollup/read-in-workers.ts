import { Worker } from "node:worker_threads";
import { WorkbookFileError } from "../../../xlsx/index.js";
import { closeGate, type EndingGate, endingGate } from "./ending-gate.js";
import { failed, READER_READY, type ReadAnswer, type ReadRequest } from "./read-answer.js";

/**
 * A workbook that needs more is left out. With less than 2 GB the heap is collected in full so often that reading takes a
 * sixth longer (measured with Node 20); what a file may unfold to has its own, lower limits.
 */
const WORKER_LIMITS = { maxOldGenerationSizeMb: 2048, maxYoungGenerationSizeMb: 8 };

/** A thread that reads, and whether it has started. */
interface Reader {
  readonly worker: Worker;
  readonly gate: EndingGate;
  isReady: boolean;
}

/** The readers that work: where the program is left, it ends them all. */
const working = new Set<Reader>();

function closeGates(): void {
  for (const { gate } of working) closeGate(gate);
}

function startedReader(): Reader {
  const gate = endingGate();
  const worker = new Worker(new URL("./read-worker.js", import.meta.url), {
    resourceLimits: WORKER_LIMITS,
    workerData: gate,
  });
  const reader = { worker, gate, isReady: false };
  if (working.size === 0) process.on("exit", closeGates);
  working.add(reader);
  return reader;
}

async function endReader(reader: Reader): Promise<void> {
  closeGate(reader.gate);
  await reader.worker.terminate();
  working.delete(reader);
  if (working.size === 0) process.off("exit", closeGates);
}

/**
 * Reads workbooks in several threads, one at a time in each, and hands every answer on before the next one is asked of
 * the same thread. A thread that dies, or that a workbook keeps too long, costs that workbook alone.
 *
 * @param mostSeconds - After so long a workbook is given up, however few there are; the start of its thread not counted [s]
 */
export async function readInWorkers(
  requests: readonly ReadRequest[],
  workers: number,
  mostSeconds: number,
  take: (answer: ReadAnswer, request: ReadRequest) => Promise<void>,
): Promise<void> {
  const waiting = requests.values();
  await Promise.all(Array.from({ length: Math.min(workers, requests.length) }, () => work(waiting, mostSeconds, take)));
}

async function work(
  waiting: IterableIterator<ReadRequest>,
  mostSeconds: number,
  take: (answer: ReadAnswer, request: ReadRequest) => Promise<void>,
): Promise<void> {
  let reader: Reader | undefined;
  try {
    for (const request of waiting) {
      reader ??= startedReader();
      const answer = await asked(reader, request, mostSeconds);
      if (answer instanceof Error) {
        await endReader(reader);
        reader = undefined;
      }
      await take(answer instanceof Error ? failed(request, answer) : answer, request);
    }
  } finally {
    if (reader !== undefined) await endReader(reader);
  }
}

/**
 * Returns the worker's answer, or the error of which it died or for which it has to. Its start is no time of the workbook:
 * on a busy machine that alone takes long.
 */
function asked(reader: Reader, request: ReadRequest, mostSeconds: number): Promise<ReadAnswer | Error> {
  const { worker } = reader;
  return new Promise((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    const begin = () => {
      reader.isReady = true;
      timer = setTimeout(() => settle(tooSlow(request, mostSeconds)), mostSeconds * 1000);
    };
    const settle = (outcome: ReadAnswer | Error) => {
      clearTimeout(timer);
      worker.off("message", told);
      worker.off("error", settle);
      worker.off("exit", exited);
      resolve(outcome);
    };
    const told = (message: ReadAnswer | typeof READER_READY) => (message === READER_READY ? begin() : settle(message));
    const exited = () => settle(new Error("its reader stopped"));
    worker.on("message", told);
    worker.on("error", settle);
    worker.on("exit", exited);
    if (reader.isReady) begin();
    worker.postMessage(request);
  });
}

/** Tried again in the next run: perhaps the machine was busy. */
function tooSlow({ file }: ReadRequest, mostSeconds: number): WorkbookFileError {
  return new WorkbookFileError(
    "not-readable",
    file,
    `takes longer than ${mostSeconds} seconds to read and calculate`,
    "Open it in your spreadsheet program, let it calculate, save it, and run the roll-up again; or allow more with --seconds.",
  );
}
