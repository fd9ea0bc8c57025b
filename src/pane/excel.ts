/*
 * The pane's entry inside Excel.
 */
import { excelHost } from "../hosts/excel/index.js";
import type { TemplateId } from "../workbook/index.js";
import { HostError } from "../workbook/index.js";
import { mountPane } from "./mount-pane.js";

/** The templates lie beside the pane, where the add-in is served. */
async function templateBytes(template: TemplateId): Promise<Uint8Array> {
  const failure = "The template could not be fetched. No sheet was added. Look whether this computer is online.";
  try {
    const response = await fetch(`templates/${template}.xlsx`);
    if (response.ok) return new Uint8Array(await response.arrayBuffer());
    throw new Error(`The server answers ${response.status}.`);
  } catch (cause) {
    throw new HostError(failure, { cause });
  }
}

/** Whether Excel itself is dark; null where it does not say, and then the system's choice holds. */
function isExcelDark(): boolean | null {
  try {
    return Office.context.officeTheme?.isDarkTheme ?? null;
  } catch {
    return null; // Some hosts throw instead of having no theme.
  }
}

/** Excel may be dark while the system is light: the pane goes with Excel where Excel says so. */
function followExcelTheme(): void {
  const isDark = isExcelDark();
  if (isDark !== null) document.documentElement.dataset["theme"] = isDark ? "dark" : "light";
}

async function start(): Promise<void> {
  const { host } = await Office.onReady();
  const pane = document.getElementById("pane");
  if (pane === null) throw new Error("The page has no place for the pane.");
  if (host !== Office.HostType.Excel) {
    pane.textContent = "Vanesheet works inside Excel. Open this page there, by the add-in's button on the Home tab.";
    return;
  }
  followExcelTheme();
  mountPane(excelHost(templateBytes), pane);
}

await start();
