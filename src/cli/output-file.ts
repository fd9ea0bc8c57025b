import { extname } from "node:path";
import {
  openWorkbookFile,
  saveWorkbookCopy,
  saveWorkbookFile,
  type WorkbookFile,
  writeTarget,
} from "../hosts/file/index.js";
import { WorkbookFileError } from "../xlsx/index.js";
import { type Arguments, UsageError } from "./command.js";

/** How the name of a plain workbook ends. */
export const WORKBOOK_ENDING = ".xlsx";

/** The options of a command that writes a workbook under a name of its own. */
export const OUTPUT_OPTIONS = {
  output: { type: "string", short: "o" },
  replace: { type: "boolean" },
} as const;

/** Where a command writes to, and whether a file of that name may be replaced. */
export interface OutputFile {
  readonly path: string;
  readonly existing: "refuse" | "replace";
}

/** Returns the file that `-o` names; undefined without it. */
export function outputFile({ options }: Arguments): OutputFile | undefined {
  const path = options["output"];
  const existing = options["replace"] === true ? "replace" : "refuse";
  if (path === undefined && existing === "replace") throw new UsageError("--replace goes with -o OUT.");
  if (typeof path !== "string") return undefined;
  if (path === "") throw new UsageError("-o needs the name of a file.");
  return { path, existing };
}

/** Refuses a name whose ending promises another kind of file: a spreadsheet program would not open it. */
export function requireEnding(path: string, wanted: string): void {
  if (extname(path).toLowerCase() === wanted.toLowerCase()) return;
  throw new UsageError(`“${path}” has to end in ${wanted}, since that is the kind of file it will be.`);
}

/** Returns the workbook that `-o` names, of the same kind as the one that is read; undefined without it. */
export function workbookOutput(args: Arguments, source: string): OutputFile | undefined {
  const output = outputFile(args);
  if (output !== undefined) requireEnding(output.path, extname(source) || WORKBOOK_ENDING);
  return output;
}

/**
 * Refuses, before any work is done, to write where no file can be, over the very file that is read, or over another
 * without being asked to.
 *
 * @param source - Where the file that is read really lies
 * @param advice - What to do instead of writing over it
 */
export async function requireFree(source: string, { path, existing }: OutputFile, advice: string): Promise<void> {
  const target = await writeTarget(path);
  if (!target.isThere) return;
  if (target.path === source) throw new UsageError(`“${path}” is the file that is read. ${advice}`);
  if (existing === "replace") return;
  throw new WorkbookFileError("not-writable", path, "is there already", "Choose another name, or add --replace.");
}

/** Opens the workbook that a command changes, once it is known that what `-o` names is free. */
export async function openToChange(
  path: string,
  output: OutputFile | undefined,
  advice = "Leave -o out to save it in place.",
): Promise<WorkbookFile> {
  const file = await openWorkbookFile(path);
  if (output !== undefined) await requireFree(file.path, output, advice);
  return file;
}

/** Saves a workbook that was changed: in place, or where `-o` says. */
export function saveChanged(
  file: WorkbookFile,
  bytes: Uint8Array,
  output: OutputFile | undefined,
): ReturnType<typeof saveWorkbookFile> {
  return output === undefined ? saveWorkbookFile(file, bytes) : saveWorkbookCopy(output.path, bytes, output.existing);
}
