import { parentPort, workerData } from "node:worker_threads";
import { zlibCodec } from "../zlib-codec.js";
import { behindGate, type EndingGate } from "./ending-gate.js";
import { READER_READY, type ReadRequest } from "./read-answer.js";
import { readJobFile } from "./read-job-file.js";

/* The worker that reads workbooks, one at a time: it says that it is ready, a request comes in, its answer goes out. */
const codec = behindGate(workerData as EndingGate, zlibCodec);
parentPort?.on("message", (request: ReadRequest) => {
  void readJobFile(request, codec).then((answer) => {
    // Its bytes move to the other thread instead of being copied.
    const moved = answer.kind === "read" ? [answer.spelled.buffer as ArrayBuffer] : [];
    parentPort?.postMessage(answer, moved);
  });
});
parentPort?.postMessage(READER_READY);
