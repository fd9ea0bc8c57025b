import { rmSync } from "node:fs";

/** Signals by which a person or the system ends a process, as far as the platform knows them. */
const ENDING_SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"] as const;

/** Files that must not outlive the process. */
const unfinished = new Set<string>();

function removeAndEnd(signal: NodeJS.Signals): void {
  for (const path of unfinished) rmSync(path, { force: true });
  stopListening();
  // Nobody listens any more, so that the process ends as it would have ended without us.
  process.kill(process.pid, signal);
}

function stopListening(): void {
  for (const signal of ENDING_SIGNALS) process.off(signal, removeAndEnd);
}

/**
 * Does a piece of work on files that are not finished before the work is; where Ctrl-C or the system ends the process in
 * the middle, they are removed. It is listened for only that long: a process that is busy calculating hears no signal,
 * and has to end at once.
 */
export async function removedWhenEnded<T>(paths: readonly string[], work: () => Promise<T>): Promise<T> {
  if (unfinished.size === 0) for (const signal of ENDING_SIGNALS) process.on(signal, removeAndEnd);
  for (const path of paths) unfinished.add(path);
  try {
    return await work();
  } finally {
    for (const path of paths) unfinished.delete(path);
    if (unfinished.size === 0) stopListening();
  }
}
