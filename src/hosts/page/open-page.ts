import type { Model } from "@odoo/o-spreadsheet";
import { createModel } from "../../engine/index.js";
import type { DemoJob, InteractiveHost } from "../../workbook/index.js";
import { readCellInto } from "./cell-reader.js";
import { showWorkbook } from "./engine-view.js";
import { showErrorsIn } from "./error-strip.js";
import { type KeepState, keepChanges } from "./keep-changes.js";
import { messagesIn } from "./messages.js";
import { pageElements } from "./page-elements.js";
import { pageHost } from "./page-host.js";
import { showPaneBy } from "./pane-toggle.js";
import { demoData } from "./sheets/demo-data.js";
import { forgetStored, isOnlyTab, readStored, type StoredWorkbook } from "./stored-workbook.js";
import { makeWatchers } from "./watchers.js";
import "./page.css";

/** A workbook in view, and how to put it away. */
interface OpenWorkbook {
  readonly model: Model;
  readonly close: () => void;
}

const QUESTION = "Start the demonstration over? What you typed in this page is then lost.";

/**
 * Opens the local workbook page: the workbook of the last visit, or the demonstration job.
 *
 * @returns The page as a host, for a pane that stands beside the grid
 */
export async function openPage(job: DemoJob): Promise<InteractiveHost> {
  const elements = pageElements();
  const messages = messagesIn(elements.messages);
  const onlyTab = await isOnlyTab();
  const watchers = makeWatchers();
  let current: OpenWorkbook | null = null;

  const tellKept = (state: KeepState): void => {
    const hasFailed = state.kind === "failed";
    elements.kept.classList.toggle("failed", hasFailed);
    elements.kept.textContent = hasFailed
      ? `Your changes are not kept: ${state.reason} They are lost when this page closes.`
      : "Your changes are kept in this browser.";
  };

  const open = async ({ title, data }: StoredWorkbook): Promise<void> => {
    const model = createModel(data);
    current?.close();
    elements.workbook.replaceChildren();
    elements.title.textContent = title;
    const takeDown = await showWorkbook(model, elements.workbook, messages);
    const stopKeeping = onlyTab ? keepChanges(model, title, tellKept) : () => undefined;
    const stopErrors = showErrorsIn(model, elements);
    const stopReading = readCellInto(model, elements.cell);
    const stopWatchers = watchers.follow(model);
    current = {
      model,
      close() {
        stopKeeping();
        stopErrors();
        stopReading();
        stopWatchers();
        takeDown();
      },
    };
  };

  const openDemo = (): Promise<void> => open({ title: job.name, data: demoData(job) });

  const openStored = async (): Promise<void> => {
    try {
      const stored = await readStored();
      if (stored === null) return await openDemo();
      await open(stored);
      tellKept({ kind: "kept" });
    } catch (cause) {
      const reason = cause instanceof Error ? cause.message : String(cause);
      messages.raiseError(
        `The workbook of your last visit cannot be opened (${reason}). The demonstration is open instead.`,
      );
      await openDemo();
    }
  };

  showPaneBy(elements.paneToggle, elements.pane);
  elements.reset.addEventListener("click", () => {
    messages.askConfirmation(QUESTION, () => {
      void forgetStored().then(openDemo, (cause: unknown) => messages.raiseError(String(cause)));
    });
  });
  await openStored();
  if (!onlyTab) tellKept({ kind: "failed", reason: "this page is open in another tab, which keeps its own." });

  const currentModel = (): Model => {
    if (current === null) throw new Error("No workbook is open.");
    return current.model;
  };
  return pageHost(currentModel, watchers);
}
