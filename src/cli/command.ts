import type { ParseArgsConfig } from "node:util";

/** Exit status of the command line. */
export const EXIT = {
  /** Done, and nothing found wanting. */
  done: 0,
  /** A formula gave an error, a check found something, a file was refused. */
  found: 1,
  /** The command itself was typed wrongly. */
  usage: 2,
  /** A comparison with an earlier run found a new problem. */
  newProblem: 3,
} as const;

export type ExitStatus = (typeof EXIT)[keyof typeof EXIT];

export interface Arguments {
  readonly positionals: readonly string[];
  /** Options as typed: `--json` is true, `-o FILE` its text, one that may be repeated a list. */
  readonly options: Readonly<Record<string, string | boolean | readonly string[] | undefined>>;
}

/** One command: what it takes, what it says of itself, and what it does. */
export interface Command {
  /** After the command's name, as in the help: `FILE [-o OUT]`. */
  readonly usage: string;
  /** Sentences of help, a line each. */
  readonly help: readonly string[];
  readonly options: NonNullable<ParseArgsConfig["options"]>;
  run(args: Arguments): Promise<ExitStatus>;
}

/** What a command throws when it was typed wrongly; the message says how it is typed right. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "UsageError";
  }
}

/** Whether a command was typed wrongly. Asks for the name, since each bundled command has a class of its own. */
export function isUsageError(thrown: unknown): boolean {
  return thrown instanceof Error && thrown.name === "UsageError";
}

/** Returns the one text that a command takes, or says that it is missing or that there is more. */
export function onePositional({ positionals }: Arguments, what: string): string {
  const [first, ...rest] = positionals;
  if (first === undefined) throw new UsageError(`${what} is missing.`);
  if (rest.length > 0) throw new UsageError(`One ${what} is taken, but ${positionals.length} were given.`);
  return first;
}

/** Returns the text that an option was given, null where it was not. */
export function textOption({ options }: Arguments, name: string): string | null {
  const given = options[name];
  return typeof given === "string" ? given : null;
}
