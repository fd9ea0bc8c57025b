import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { packageFile } from "../hosts/file/package-file.js";
import { type Arguments, type Command, EXIT, type ExitStatus, isUsageError } from "./command.js";
import { printedByProcess } from "./process-output.js";
import { onOneLine } from "./shown-controls.js";

interface Listed {
  readonly summary: string;
  readonly load: () => Promise<Command>;
}

/** Every command. Its file is loaded only when it is called, so that the command line starts fast. */
const COMMANDS: Readonly<Record<string, Listed>> = {
  calc: {
    summary: "calculate a workbook's VANE formulas",
    load: async () => (await import("./calc.js")).calcCommand,
  },
  check: {
    summary: "find what is wrong in a workbook, cell by cell",
    load: async () => (await import("./check.js")).checkCommand,
  },
  columns: {
    summary: "say what the columns of your own sheet hold, so that it is read as a list",
    load: async () => (await import("./columns.js")).columnsCommand,
  },
  convert: {
    summary: "turn plain airflow formulas of your own sheet into VANE formulas, and back",
    load: async () => (await import("./convert.js")).convertCommand,
  },
  eval: {
    summary: "calculate one formula",
    load: async () => (await import("./eval.js")).evalCommand,
  },
  functions: {
    summary: "list the cell functions, or show one's help",
    load: async () => (await import("./functions.js")).functionsCommand,
  },
  handoff: {
    summary: "write a copy of a workbook that needs no add-in",
    load: async () => (await import("./handoff.js")).handoffCommand,
  },
  new: {
    summary: "start a workbook from a template",
    load: async () => (await import("./new.js")).newCommand,
  },
  page: {
    summary: "open the workbook page in the browser, on this machine alone",
    load: async () => (await import("./page.js")).pageCommand,
  },
  readings: {
    summary: "read what instruments logged, and average their sweeps",
    load: async () => (await import("./readings.js")).readingsCommand,
  },
  rollup: {
    summary: "roll many jobs up into one workbook",
    load: async () => (await import("./rollup.js")).rollupCommand,
  },
};

/** The names of the commands, each of which stands in a file of that name. */
export const COMMAND_NAMES: readonly string[] = Object.keys(COMMANDS);

const GENERAL_OPTIONS = { help: { type: "boolean", short: "h" } } as const;

function version(): string {
  const text = readFileSync(packageFile("package.json"), "utf8");
  return (JSON.parse(text) as { version: string }).version;
}

function generalHelp(): string {
  const width = Math.max(...Object.keys(COMMANDS).map((name) => name.length));
  return [
    "vanesheet: air volume from air velocity, in workbooks and on the command line",
    "",
    "usage: vanesheet COMMAND …",
    "",
    ...Object.entries(COMMANDS).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`),
    "",
    "vanesheet COMMAND --help explains one. --version prints the version.",
    "Exit status: 0 done, 1 an error in the result or something found, 2 wrong usage.",
  ].join("\n");
}

function commandHelp(name: string, command: Command): string {
  return [`usage: vanesheet ${name} ${command.usage}`, "", ...command.help].join("\n");
}

async function runNamed(name: string, { load }: Listed, args: readonly string[]): Promise<ExitStatus> {
  const command = await load();
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { ...command.options, ...GENERAL_OPTIONS },
    allowPositionals: true,
  });
  if (values.help === true) {
    console.log(commandHelp(name, command));
    return EXIT.done;
  }
  return command.run({ positionals, options: values as Arguments["options"] });
}

function isTypedWrongly(thrown: unknown): thrown is Error {
  return (
    isUsageError(thrown) ||
    (thrown instanceof TypeError && "code" in thrown && String(thrown.code).startsWith("ERR_PARSE_ARGS"))
  );
}

/** Runs the command line and returns the exit status; it prints, and throws nothing. */
export async function runCommandLine(args: readonly string[]): Promise<ExitStatus> {
  const [name, ...rest] = args;
  if (name === "--version" || name === "-v") {
    console.log(version());
    return EXIT.done;
  }
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    console.log(generalHelp());
    return name === undefined ? EXIT.usage : EXIT.done;
  }
  const listed = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (listed === undefined) {
    console.error(`vanesheet: there is no command "${onOneLine(name)}". vanesheet --help lists them.`);
    return EXIT.usage;
  }
  try {
    return await runNamed(name, listed, rest);
  } catch (thrown) {
    if (isTypedWrongly(thrown)) {
      // Node's own sentence on a wrong option goes on to advise on dashes, which no command here needs.
      const sentence = isUsageError(thrown) ? thrown.message : thrown.message.split(". ")[0];
      console.error(
        `vanesheet ${name}: ${onOneLine(sentence ?? "")} "vanesheet ${name} --help" shows how it is typed.`,
      );
      return EXIT.usage;
    }
    const message = thrown instanceof Error ? thrown.message : String(thrown);
    console.error(`vanesheet ${name}: ${onOneLine(message)}`);
    return EXIT.found;
  }
}

/** Runs the command line as the process that a person started, and returns its exit status. */
export async function runAsProcess(args: readonly string[]): Promise<ExitStatus> {
  return printedByProcess(() => runCommandLine(args));
}
