/*
 * Reads and writes files beside the page, so that the page goes on answering while a large file is read.
 */
import { failureOf, type TaskAnswer, type TaskRequest } from "./task-messages.js";
import { XLSX_TASKS } from "./xlsx-tasks.js";

addEventListener("message", ({ data }: MessageEvent<TaskRequest>) => {
  const { number, name, given } = data;
  const answer = async (): Promise<TaskAnswer> => {
    try {
      const task = XLSX_TASKS[name] as (...given: readonly unknown[]) => unknown;
      return { number, result: await task(...given) };
    } catch (cause) {
      return { number, failure: failureOf(cause) };
    }
  };
  void answer().then((answered) => postMessage(answered));
});
