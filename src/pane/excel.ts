/*
 * The pane's entry inside Excel.
 */
import { excelHost } from "../hosts/excel/index.js";
import { HostError, isAsItsFile, type TemplateId, type TemplateOptions } from "../workbook/index.js";
import { takeCommands } from "./excel-commands.js";
import { isExcelDark } from "./is-excel-dark.js";
import { mountPane } from "./mount-pane.js";
import { keepOffline } from "./offline/keep-offline.js";

/** The templates lie beside the pane, where the add-in is served; what makes another is fetched when it is asked for. */
async function templateBytes(template: TemplateId, options: TemplateOptions): Promise<Uint8Array> {
  const failure = "The template could not be fetched. No sheet was added. Look whether this computer is online.";
  try {
    if (!isAsItsFile(options)) {
      const { plannedTemplate } = await import("../engine/planned-template.js");
      return (await plannedTemplate(template, options)).archive.bytes;
    }
    const response = await fetch(`templates/${template}.xlsx`);
    if (response.ok) return new Uint8Array(await response.arrayBuffer());
    throw new Error(`The server answers ${response.status}.`);
  } catch (cause) {
    throw new HostError(failure, { cause });
  }
}

async function start(): Promise<void> {
  if (typeof Office === "undefined") return; // loading.ts says so.
  const { host } = await Office.onReady();
  const pane = document.getElementById("pane");
  if (pane === null) throw new Error("The page has no place for the pane.");
  document.documentElement.dataset["started"] = "";
  if (host !== Office.HostType.Excel) {
    pane.textContent = "Vanesheet works inside Excel. Open this page there, by the add-in's button on the Home tab.";
    return;
  }
  takeCommands();
  mountPane(excelHost(templateBytes), pane, isExcelDark);
  await keepOffline();
}

await start();
