import { CellErrorType, registries, setTranslationMethod } from "@odoo/o-spreadsheet";

/** Excel's names for errors that the library names its own way. */
const EXCEL_CODES = {
  GenericError: "#VALUE!",
  InvalidReference: "#REF!",
  BadExpression: "#NAME?",
} as const;

/** What the library says of an error in itself, where it would send people to its makers. */
const OWN_ERROR = "An unexpected error occurred. Submit a support ticket at odoo.com/help.";

/** How the message of a cell begins when the library failed and not the formula. */
const LIBRARY_FAILED = "The spreadsheet engine cannot calculate this:";

let isPrepared = false;

/** Makes the library speak Excel's error codes and keep silent; call it before the first model is made. */
export function prepareLibrary(): void {
  if (isPrepared) return;
  isPrepared = true;
  nameErrorsLikeExcel();
  sayWhoFailed();
  silenceTimings();
  provideGroupBy();
}

/** The library reads its codes from this one object at run time, and knows an error by its place in this set. */
function nameErrorsLikeExcel(): void {
  const codes = CellErrorType as Record<keyof typeof CellErrorType, string>;
  for (const code of Object.values(EXCEL_CODES)) registries.errorTypes.add(code);
  Object.assign(codes, EXCEL_CODES);
}

function sayWhoFailed(): void {
  setTranslationMethod((text: string, ..._values: unknown[]) => (text === OWN_ERROR ? LIBRARY_FAILED : text));
}

/** The library reports its timings by console.debug, which Node prints among the results of a command. */
function silenceTimings(): void {
  const { console } = globalThis as { console?: { debug: (...words: unknown[]) => void } };
  if (console !== undefined) console.debug = () => undefined;
}

type Grouping = <Item>(items: Iterable<Item>, keyOf: (item: Item, index: number) => PropertyKey) => object;

/** The library groups pivot and chart data by a method that Node has from version 21 on. */
function provideGroupBy(): void {
  const library = Object as { groupBy?: Grouping };
  library.groupBy ??= (items, keyOf) => {
    const groups: Record<PropertyKey, unknown[]> = Object.create(null);
    let index = 0;
    for (const item of items) {
      const key = keyOf(item, index);
      groups[key] ??= [];
      groups[key].push(item);
      index += 1;
    }
    return groups;
  };
}
