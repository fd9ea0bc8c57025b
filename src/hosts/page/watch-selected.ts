import type { Model } from "@odoo/o-spreadsheet";

/** Calls the listener after other cells were selected or another sheet came to the front; returns how to stop. */
export function watchSelected(model: Model, listener: () => void): () => void {
  const owner = {};
  const { getters } = model;
  const selected = () => {
    const { left, top, right, bottom } = getters.getSelectedZone();
    return [getters.getActiveSheetId(), left, top, right, bottom].join(" ");
  };
  let last = selected();
  const look = (): void => {
    const now = selected();
    if (now === last) return;
    last = now;
    listener();
  };
  model.on("update", owner, look);
  return () => model.off("update", owner);
}
