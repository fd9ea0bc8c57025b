import { addHandlers } from "./event-handlers.js";
import { runExcel } from "./run-excel.js";

type SheetEvent = { readonly worksheetId: string };

/** Collects what changed while the names are being looked up, so that a storm of events costs few look-ups. */
function collector(report: (ids: readonly string[]) => Promise<void>): (id: string) => Promise<void> {
  const waiting = new Set<string>();
  let running: Promise<void> | null = null;
  const drain = async () => {
    while (waiting.size > 0) {
      const ids = [...waiting];
      waiting.clear();
      await report(ids);
    }
  };
  return (id) => {
    waiting.add(id);
    running ??= drain().finally(() => {
      running = null;
    });
    return running;
  };
}

async function namesOf(ids: readonly string[]): Promise<readonly string[]> {
  return runExcel("The changed sheet could not be found.", async (context) => {
    const sheets = ids.map((id) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject(id);
      sheet.load("name");
      return sheet;
    });
    await context.sync();
    return sheets.filter(({ isNullObject }) => !isNullObject).map(({ name }) => name);
  });
}

/**
 * Calls the listener with a sheet's name after its cells changed, by hand or by formula; returns how to stop.
 *
 * A sheet that is renamed later is reported under its new name, one that is deleted no more.
 */
export async function watchChanges(listener: (sheet: string) => void): Promise<() => Promise<void>> {
  let watching = true;
  const collect = collector(async (ids) => {
    for (const name of await namesOf(ids)) if (watching) listener(name);
  });
  const heard = async ({ worksheetId }: SheetEvent) => collect(worksheetId);
  const remove = await addHandlers("Excel cannot be watched for changes.", (worksheets) => [
    worksheets.onChanged.add(heard),
    worksheets.onCalculated.add(heard),
  ]);
  return async () => {
    watching = false;
    await remove();
  };
}
