/*
 * The pane's entry inside Excel.
 */
import "./pane.css";

async function start(): Promise<void> {
  const { host } = await Office.onReady();
  const pane = document.getElementById("pane");
  if (pane === null) throw new Error("The page has no place for the pane.");
  pane.textContent =
    host === Office.HostType.Excel
      ? "Vanesheet is ready. Type =VANE. in a cell and pick a function."
      : "Vanesheet works inside Excel. Open this page there, by the add-in's button on the Home tab.";
}

await start();
