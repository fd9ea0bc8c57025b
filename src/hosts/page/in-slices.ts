/** So long does a slice keep the page from answering; a person takes a tenth of a second for at once. */
const SLICE_MS = 40;

/** Lets the page answer. A timer would be held back in a page that is not in view. */
export function nextTurn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

/**
 * Goes through work that is parted into steps, and lets the page answer in between.
 *
 * @param stopped - Thrown out of the work when it is aborted
 */
export async function inSlices<Result>(steps: Generator<undefined, Result>, stopped?: AbortSignal): Promise<Result> {
  let begun = performance.now();
  try {
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value;
      if (performance.now() - begun < SLICE_MS) continue;
      await nextTurn();
      stopped?.throwIfAborted();
      begun = performance.now();
    }
  } finally {
    steps.return(undefined as never);
  }
}
