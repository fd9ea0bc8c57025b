import type { Model } from "@odoo/o-spreadsheet";
import { DRAWING_STAYS } from "../../../engine/index.js";
import type { Messages } from "../messages.js";

interface Rejection {
  readonly result: { isCancelledBecause(reason: never): boolean };
}

/** Says so when somebody would move or delete a chart or a picture; returns how to stop. */
export function tellDrawings(model: Model, messages: Messages): () => void {
  const owner = {};
  let isTold = false;
  const tell = ({ result }: Rejection): void => {
    if (isTold || !result.isCancelledBecause(DRAWING_STAYS as never)) return;
    isTold = true;
    setTimeout(() => {
      isTold = false;
    }, 1_000);
    messages.notifyUser({
      type: "info",
      sticky: false,
      text: "Charts and pictures stay as the file has them. Press Escape to go back to the cells.",
    });
  };
  model.on("command-rejected", owner, tell as never);
  return () => model.off("command-rejected", owner);
}
