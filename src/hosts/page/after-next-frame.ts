/** A page in the background draws nothing, and goes on all the same. */
const LONGEST_WAIT_MS = 100;

/** Lets the browser draw before work that keeps it from drawing. */
export function afterNextFrame(): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, LONGEST_WAIT_MS);
    requestAnimationFrame(() => {
      setTimeout(() => {
        clearTimeout(timer);
        resolve();
      }, 0);
    });
  });
}
