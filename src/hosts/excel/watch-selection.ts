import { addHandlers } from "./event-handlers.js";

/** Calls the listener after other cells were selected, or another sheet came to the front; returns how to stop. */
export async function watchSelection(listener: () => void): Promise<() => Promise<void>> {
  let watching = true;
  const heard = async () => {
    if (watching) listener();
  };
  const remove = await addHandlers("Excel cannot be watched for what is selected.", (worksheets) => [
    worksheets.onSelectionChanged.add(heard),
    worksheets.onActivated.add(heard),
  ]);
  return async () => {
    watching = false;
    await remove();
  };
}
