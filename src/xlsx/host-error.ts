/** What a host, or a file that it reads, throws: one clear message about what could not be done, with the cause. */
export class HostError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = "HostError";
  }
}
