import { errorOf, type TaskAnswer, type TaskRequest } from "./task-messages.js";
import type { RunTask } from "./xlsx-tasks.js";

/** A file that takes longer than any that a job needs. */
const PATIENCE_MS = 120_000;

interface Waiting {
  readonly resolve: (result: never) => void;
  readonly reject: (cause: Error) => void;
  readonly timer: ReturnType<typeof setTimeout>;
}

/** Thrown by a task that the person stopped. */
export class StoppedError extends Error {
  constructor() {
    super("Stopped. Nothing was changed.");
  }
}

/** Runs tasks on files, and stops those that run. */
export interface TaskRunner {
  /** Starts the worker before there is a task, so that the first one need not wait for it. */
  readonly start: () => void;
  readonly run: RunTask;
  readonly stop: () => void;
}

/**
 * Returns how to run tasks on files in a worker. One that takes too long is ended, and the next gets a new worker.
 *
 * @param lateWords - What is said of one that takes too long
 */
export function runInWorker(lateWords = "The file takes too long to read. Split the workbook."): TaskRunner {
  const waiting = new Map<number, Waiting>();
  let worker: Worker | null = null;
  let last = 0;

  const end = (cause: Error): void => {
    worker?.terminate();
    worker = null;
    for (const { reject, timer } of waiting.values()) {
      clearTimeout(timer);
      reject(cause);
    }
    waiting.clear();
  };

  const started = (): Worker => {
    const made = new Worker(new URL("./xlsx-worker.js", import.meta.url));
    made.addEventListener("message", ({ data }: MessageEvent<TaskAnswer>) => {
      const task = waiting.get(data.number);
      if (task === undefined) return;
      waiting.delete(data.number);
      clearTimeout(task.timer);
      if ("failure" in data) task.reject(errorOf(data.failure));
      else task.resolve(data.result as never);
    });
    made.addEventListener("error", (event) => {
      event.preventDefault();
      end(new Error(event.message === "" ? "The part of the page that reads files cannot start." : event.message));
    });
    return made;
  };

  const run: RunTask = (name, ...given) =>
    new Promise((resolve, reject) => {
      if (typeof Worker === "undefined") {
        throw new Error("This browser cannot read and write files beside the page. Use a current browser.");
      }
      worker ??= started();
      last += 1;
      const timer = setTimeout(() => end(new Error(lateWords)), PATIENCE_MS);
      waiting.set(last, { resolve, reject, timer });
      const request: TaskRequest = { number: last, name, given };
      worker.postMessage(request);
    });
  return {
    start() {
      if (typeof Worker === "undefined") return;
      try {
        worker ??= started();
      } catch {
        // The first task says why it cannot be.
      }
    },
    run,
    stop: () => end(new StoppedError()),
  };
}
