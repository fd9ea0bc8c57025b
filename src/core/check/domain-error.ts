/** What a core formula throws when an argument lies outside the range in which the formula means something. */
export class DomainError extends Error {
  /**
   * @param parameter - Name of the argument at fault, as the function spells it
   * @param expected - What the function takes, in words: "above 0"
   * @param received - What it was given
   */
  constructor(
    readonly parameter: string,
    readonly expected: string,
    readonly received: unknown,
  ) {
    super(`${parameter} must be ${expected}, but is ${String(received)}`);
    this.name = "DomainError";
  }
}
