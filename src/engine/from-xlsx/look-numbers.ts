import { PLAIN_LOOK, type WorkbookLooks } from "../../xlsx/index.js";
import { engineBorders, engineFormat, engineStyle } from "./engine-look.js";

/** The lists of styles, formats and frames of an engine's workbook, and where each look of the file stands in them. */
export interface LookNumbers {
  style(look: number): number | undefined;
  format(look: number): number | undefined;
  border(look: number): number | undefined;
  readonly lists: {
    readonly styles: Readonly<Record<number, object>>;
    readonly formats: Readonly<Record<number, string>>;
    readonly borders: Readonly<Record<number, object>>;
  };
}

/** Keeps each different entry once, numbered from 1; what says nothing has no number. */
function numbered<Entry>(entries: readonly (Entry | undefined)[]) {
  const numbers = new Map<string, number>();
  const list: Record<number, Entry> = {};
  const byLook = entries.map((entry) => {
    const key = JSON.stringify(entry);
    if (entry === undefined || key === "{}") return undefined;
    const number = numbers.get(key) ?? numbers.size + 1;
    numbers.set(key, number);
    list[number] = entry;
    return number;
  });
  return { list, of: (look: number) => byLook[look] };
}

/** Numbers the looks of a file's cells for the engine. */
export function numberLooks({ cells }: WorkbookLooks): LookNumbers {
  const looks = cells.length === 0 ? [PLAIN_LOOK] : cells;
  const styles = numbered(looks.map(engineStyle));
  const formats = numbered(looks.map(({ numberFormat }) => engineFormat(numberFormat)));
  const borders = numbered(looks.map(engineBorders));
  return {
    style: styles.of,
    format: formats.of,
    border: borders.of,
    lists: { styles: styles.list, formats: formats.list, borders: borders.list },
  };
}
