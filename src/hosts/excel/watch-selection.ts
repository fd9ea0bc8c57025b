import { type AddedHandler, removeHandlers } from "./event-handlers.js";
import { runExcel } from "./run-excel.js";

/** Calls the listener after other cells were selected, or another sheet came to the front; returns how to stop. */
export async function watchSelection(listener: () => void): Promise<() => Promise<void>> {
  let watching = true;
  const heard = async () => {
    if (watching) listener();
  };
  const handlers = await runExcel("Excel cannot be watched for what is selected.", async (context) => {
    const { worksheets } = context.workbook;
    const added: readonly AddedHandler<unknown>[] = [
      worksheets.onSelectionChanged.add(heard),
      worksheets.onActivated.add(heard),
    ];
    await context.sync();
    return added;
  });
  return async () => {
    watching = false;
    await removeHandlers(handlers);
  };
}
