import { HostError, handoffOf, type WorkbookBytes } from "../../workbook/index.js";
import { openWorkbook, patchWorkbook, WorkbookFileError } from "../../xlsx/index.js";

/** A copy that calculates without the functions, and what became of the calls. */
export interface HandoffCopy extends WorkbookBytes {
  readonly words: string;
}

const calls = (count: number) => (count === 1 ? "1 call is a plain formula" : `${count} calls are plain formulas`);

/**
 * Makes the hand-off copy of a workbook.
 *
 * @throws {HostError} When it holds no call of ours, or cannot be read
 */
export function handoffCopy({ bytes, name }: WorkbookBytes): HandoffCopy {
  try {
    const workbook = openWorkbook(bytes, name);
    const { edits, plain, values } = handoffOf(workbook);
    if (edits.length === 0) {
      throw new HostError(`${name} calls no VANE function: it can be handed over as it is.`);
    }
    const kept = values.length === 0 ? "" : ` ${values.length} results are values now, each with a note.`;
    return {
      bytes: patchWorkbook(workbook, edits),
      name: name.replace(/(\.xls[xm])?$/i, " (hand-off)$1"),
      words: `${calls(plain.length)} now.${kept} Its last sheet lists them.`,
    };
  } catch (cause) {
    if (!(cause instanceof WorkbookFileError)) throw cause;
    throw new HostError(`No copy was made. ${cause.message}`, { cause });
  }
}
