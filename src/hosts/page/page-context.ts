import type { WorkbookConversion } from "../../engine/index.js";
import type { ExportedSheet, ExportedWorkbook } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import { StoppedError } from "./file/run-in-worker.js";
import type { RunTask } from "./file/xlsx-tasks.js";
import type { History } from "./history.js";
import type { PageMessages } from "./messages.js";
import type { StoredWorkbook } from "./stored-workbook.js";
import type { WorkbookView } from "./workbook-view.js";

/** What every action on the page works with. */
export interface PageContext {
  readonly messages: PageMessages;
  readonly run: RunTask;
  /** Does a task beside those: none waits for it, and Stop leaves it alone. Null in a browser that cannot. */
  readonly runBeside: RunTask | null;
  /** Ends the tasks that run, and a workbook that is made. */
  readonly stop: () => void;
  readonly view: () => WorkbookView;
  readonly history: History;
  /**
   * Shows a workbook in place of the one in view.
   *
   * @param isSame - Whether it is the one in view in another state, not another one
   */
  readonly show: (stored: StoredWorkbook, isSame?: boolean) => Promise<WorkbookView>;
  /** Takes no input into the workbook until it is let go, where what is typed would be lost; returns how to let go. */
  readonly hold: () => () => void;
  /** Lets the browser draw before work that keeps it from drawing. */
  readonly afterNextFrame: () => Promise<void>;
}

/** Does something that may fail, and tells the person why it did. */
export async function attempt(context: PageContext, doing: string, act: () => Promise<void>): Promise<void> {
  context.messages.busy(doing, context.stop);
  try {
    await act();
  } catch (cause) {
    if (cause instanceof StoppedError)
      context.messages.notifyUser({ type: "info", sticky: false, text: cause.message });
    else context.messages.raiseError(cause instanceof Error ? cause.message : String(cause));
  } finally {
    context.messages.busy("");
  }
}

/** Shows a workbook that has been read from the bytes of its file. */
export async function showFile(
  context: PageContext,
  given: Pick<PageFile, "name" | "bytes" | "handle">,
  { data, kept, words, drawings, unreadDrawings, protectedSheetIds, activeSheetId }: WorkbookConversion,
  isChanged: boolean,
): Promise<void> {
  const { name } = given;
  context.messages.busy(`Calculating ${name} …`, context.stop);
  await context.afterNextFrame();
  // In front from the first moment, so that nobody's keys go to another sheet.
  const front = activeSheetId === undefined ? {} : { activeSheetId };
  const shown = { title: name, data, movedSheetIds: [], protectedSheetIds, isChanged, file: null, drawings, ...front };
  const view = await context.show(shown);
  await view.setFile({ ...given, baseline: view.exported(), kept, words }, isChanged);
  if (unreadDrawings.length > 0) {
    const text = `Charts and pictures are not drawn; saving leaves them as they are. ${unreadDrawings.join(" ")}`;
    context.messages.notifyUser({ type: "warning", sticky: true, text });
  }
  if (kept.length === 0) return;
  const [first] = kept;
  const others = kept.length === 1 ? "" : ` and ${kept.length - 1} more`;
  context.messages.notifyUser({
    type: "warning",
    sticky: true,
    text: `${first?.sheet}!${first?.address}${others}: this page cannot calculate ${kept.length === 1 ? "this formula" : "these formulas"} (${first?.reason}). The values shown are those stored in the file; saving leaves the formulas as they are.`,
  });
}

/**
 * Returns a workbook as it was, with the contents, filters and names that it has now: looks are not in the file.
 * Sheets that have come are as they are.
 */
export function withContents(baseline: ExportedWorkbook, current: ExportedWorkbook): ExportedWorkbook {
  const before = new Map(baseline.sheets.map((sheet) => [sheet.id, sheet]));
  return {
    ...baseline,
    namedRanges: current.namedRanges,
    sheets: current.sheets.map((sheet) => {
      const { cells, tables, filteredRows } = sheet as ExportedSheet &
        Readonly<Record<"tables" | "filteredRows", unknown>>;
      return { ...(before.get(sheet.id) ?? sheet), cells, tables, filteredRows };
    }),
  };
}
