import { runExcel } from "./run-excel.js";

type AddedHandler = OfficeExtension.EventHandlerResult<unknown>;

/**
 * Adds handlers to events of the worksheets; returns how to remove them.
 *
 * @param problem - What is said where Excel cannot add them
 */
export async function addHandlers(
  problem: string,
  add: (worksheets: Excel.WorksheetCollection) => readonly AddedHandler[],
): Promise<() => Promise<void>> {
  const handlers = await runExcel(problem, async (context) => {
    const added = add(context.workbook.worksheets);
    await context.sync();
    return added;
  });
  return async () => {
    const [first] = handlers;
    if (first === undefined) return;
    // Excel wants it done in the context that added them.
    await Excel.run(first.context, async (context) => {
      for (const handler of handlers) handler.remove();
      await context.sync();
    });
  };
}
