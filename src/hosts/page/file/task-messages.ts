import { WorkbookFileError, type WorkbookFileErrorCode } from "../../../xlsx/index.js";
import type { XlsxTasks } from "./xlsx-tasks.js";

/** What the page sends to its worker. */
export interface TaskRequest {
  readonly number: number;
  readonly name: keyof XlsxTasks;
  readonly given: readonly unknown[];
}

/** What went wrong, as it can be sent. */
export type TaskFailure =
  | { readonly code: WorkbookFileErrorCode; readonly place: string; readonly problem: string; readonly advice: string }
  | { readonly message: string };

/** What the worker answers. */
export type TaskAnswer =
  | { readonly number: number; readonly result: unknown }
  | { readonly number: number; readonly failure: TaskFailure };

/** Takes an error apart for sending: only its words travel. */
export function failureOf(cause: unknown): TaskFailure {
  if (cause instanceof WorkbookFileError) {
    const { code, place, problem, advice } = cause;
    return { code, place, problem, advice };
  }
  return { message: cause instanceof Error ? cause.message : String(cause) };
}

/** Puts an error together again. */
export function errorOf(failure: TaskFailure): Error {
  if ("message" in failure) return new Error(failure.message);
  return new WorkbookFileError(failure.code, failure.place, failure.problem, failure.advice);
}
