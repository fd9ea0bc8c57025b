import type { Page } from "playwright-core";
import type { FakeWorkbook } from "../hosts/excel/fake-workbook.js";
import { answerAsExcel } from "./answer-as-excel.js";
import { type ExcelBridge, openAddin } from "./office-bridge.js";
import { heardMessages, keepMessages } from "./pane-messages.js";

/** A window of the simulated Excel with the pane in it, over a workbook. */
export interface ExcelWindow {
  readonly page: Page;
  readonly workbook: FakeWorkbook;
  readonly bridge: ExcelBridge;
  /** What the pane has complained of since the last call. */
  complaints(): Promise<readonly string[]>;
  close(): Promise<void>;
}

export interface ExcelWindowOptions {
  readonly place?: string;
  readonly requirementSets?: Readonly<Record<string, string>>;
  readonly isDark?: boolean;
}

type Opening = (options: object) => Promise<ExcelBridge>;

async function windowOver(workbook: FakeWorkbook, options: ExcelWindowOptions, open: Opening): Promise<ExcelWindow> {
  const asked = new Set<number>();
  const bridge = await open({ ...options, answer: answerAsExcel(workbook, asked), prepare: keepMessages });
  const { page } = bridge;
  page.setDefaultTimeout(60_000);
  workbook.onEvent = (event) => {
    // A window that was closed meanwhile hears nothing.
    if (asked.has(event.type) && !page.isClosed()) void bridge.raise(event).catch(() => undefined);
  };
  return { page, workbook, bridge, complaints: () => heardMessages(page), close: () => bridge.close() };
}

/** Opens the built add-in over a workbook; Excel answers from it and tells of what happens there. */
export function openExcel(workbook: FakeWorkbook, options: ExcelWindowOptions = {}): Promise<ExcelWindow> {
  return windowOver(workbook, options, openAddin);
}

/** Opens another window beside one that is open, as with a second workbook on the same computer. */
export function openBeside(
  first: ExcelWindow,
  workbook: FakeWorkbook,
  options: ExcelWindowOptions = {},
): Promise<ExcelWindow> {
  return windowOver(workbook, options, first.bridge.openWindow);
}
