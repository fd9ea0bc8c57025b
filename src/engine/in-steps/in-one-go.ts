/** Goes through all steps of some work at once, where nobody waits for an answer. */
export function inOneGo<Result>(steps: Generator<undefined, Result>): Result {
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}
