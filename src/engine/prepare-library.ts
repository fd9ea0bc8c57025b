import { CellErrorType, registries, setTranslationMethod } from "@odoo/o-spreadsheet";
import { ownWords } from "./own-words.js";

/** Excel's names for errors that the library names its own way. */
const EXCEL_CODES = {
  GenericError: "#VALUE!",
  InvalidReference: "#REF!",
  BadExpression: "#NAME?",
} as const;

let isPrepared = false;

/** Makes the library speak Excel's error codes and keep silent; call it before the first model is made. */
export function prepareLibrary(): void {
  if (isPrepared) return;
  isPrepared = true;
  nameErrorsLikeExcel();
  setTranslationMethod((text: string, ..._values: unknown[]) => ownWords(text));
  silenceTimings();
  provideGroupBy();
}

/** The library reads its codes from this one object at run time, and knows an error by its place in this set. */
function nameErrorsLikeExcel(): void {
  const codes = CellErrorType as Record<keyof typeof CellErrorType, string>;
  for (const code of Object.values(EXCEL_CODES)) registries.errorTypes.add(code);
  Object.assign(codes, EXCEL_CODES);
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
