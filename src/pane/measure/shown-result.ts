import type { BlockAddress, WorkbookHost } from "../../workbook/index.js";

const TRIES = 6;
const WAIT_MS = 350;

/** Apart from rounding on the way, the sheet and the pane calculate the same. */
const AGREEMENT = 1e-9;

export function isSameAirflow(shown: number, expected: number): boolean {
  return Math.abs(shown - expected) <= AGREEMENT * Math.max(1, Math.abs(expected));
}

/**
 * Reads what the sheet shows for a result that was just written; a sheet that calculates in its own time is given some.
 *
 * @returns The number that the sheet shows at last; null where it shows none
 */
export async function shownResult(host: WorkbookHost, at: BlockAddress, expected: number): Promise<number | null> {
  let shown: number | null = null;
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    const value = (await host.read([at]))[0]?.values[0]?.[0];
    shown = typeof value === "number" ? value : null;
    if (shown !== null && isSameAirflow(shown, expected)) return shown;
    await new Promise((resolve) => setTimeout(resolve, WAIT_MS));
  }
  return shown;
}
