import type { Model } from "@odoo/o-spreadsheet";

/** Keeps the tab of the sheet in front in view, however many there are; returns how to stop. */
export function showActiveTab(model: Model): () => void {
  const owner = {};
  let last = "";
  const look = (): void => {
    const now = model.getters.getActiveSheetId();
    if (now === last) return;
    last = now;
    requestAnimationFrame(() => {
      document.querySelector(".o-sheet.active")?.scrollIntoView({ inline: "nearest", block: "nearest" });
    });
  };
  model.on("update", owner, look);
  look();
  return () => model.off("update", owner);
}
