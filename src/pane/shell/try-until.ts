/** Between one try and the next; the wait doubles up to the longest. */
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 15_000;

/** How to stop trying. */
export type StopTrying = () => void;

/**
 * Does something until it succeeds.
 *
 * @param work - What is tried
 * @param onDone - Told once, with what it gave
 * @param onFailure - Told of every try that failed
 */
export function tryUntil<Result>(
  work: () => Promise<Result>,
  onDone: (result: Result) => void,
  onFailure: (cause: unknown) => void,
): StopTrying {
  let isStopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const attempt = (waitMs: number) => {
    work().then(
      (result) => {
        if (!isStopped) onDone(result);
      },
      (cause: unknown) => {
        if (isStopped) return;
        onFailure(cause);
        timer = setTimeout(() => attempt(Math.min(waitMs * 2, LONGEST_WAIT_MS)), waitMs);
      },
    );
  };
  attempt(FIRST_WAIT_MS);
  return () => {
    isStopped = true;
    clearTimeout(timer);
  };
}
