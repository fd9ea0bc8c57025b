import { askForTab } from "./shell/asked-tab.js";

/** What the ribbon, the menu of a cell and the keyboard can ask for: the tab that each opens. The manifest names them. */
export const EXCEL_COMMANDS: Readonly<Record<string, string>> = {
  measureRow: "measure",
  checkWorkbook: "check",
  handOff: "share",
};

/** Takes the commands of Excel; each shows the pane at its tab. */
export function takeCommands(): void {
  for (const [name, tab] of Object.entries(EXCEL_COMMANDS)) {
    Office.actions.associate(name, async (event?: Office.AddinCommands.Event) => {
      askForTab(tab);
      // Excel waits for the end of a command, also of one that failed.
      await Office.addin.showAsTaskpane().catch(() => undefined);
      event?.completed();
    });
  }
}
