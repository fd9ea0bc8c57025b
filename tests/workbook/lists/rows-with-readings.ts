import { cellsOf, shownIn, type Taken } from "./sheet-xml.js";

/** A row of a sheet that holds a reading. */
export interface ReadingRow {
  readonly sheet: string;
  readonly row: number;
  /** Whether it is part of a traverse, which is one opening whatever its rows. */
  readonly isTraverse: boolean;
}

/** Headings of cells that a person types readings or measured airflows into. */
const READING = /^(?:[RABV]\d|Measured (?:before|after))$/;

const isReading = (shown: number | string | null) =>
  typeof shown === "number" || (typeof shown === "string" && /^-?[\d.]+$/.test(shown));

/**
 * Counts, without any reader of lists, the rows that hold a reading: below headings for readings, or in the grid of a
 * traverse. What a formula gives is none.
 */
export function rowsWithReadings({ parts, sheets, strings }: Taken): readonly ReadingRow[] {
  return [...sheets].flatMap(([sheet, part]): readonly ReadingRow[] => {
    const cells = cellsOf(parts[part] ?? "");
    const texts = cells.map((cell) => ({ cell, shown: shownIn(cell, strings) }));
    const grid = texts.find(({ shown }) => shown === "Line A")?.cell.row;
    const isTyped = ({ cell }: (typeof texts)[number]) => !cell.inner.includes("<f>");
    if (grid !== undefined) {
      const typed = texts.filter((one) => isTyped(one) && isReading(one.shown) && one.cell.column !== "A");
      const rows = typed.filter(({ cell }) => cell.row > grid && cell.row <= grid + 14).map(({ cell }) => cell.row);
      return [...new Set(rows)].map((row) => ({ sheet, row, isTraverse: true }));
    }
    const headings = texts.filter(({ shown }) => typeof shown === "string" && READING.test(shown));
    return [
      ...new Set(
        headings.flatMap(({ cell: { column, row: headingRow } }) =>
          texts
            .filter(({ cell, shown }) => cell.column === column && cell.row > headingRow && isReading(shown))
            .filter(isTyped)
            .map(({ cell }) => cell.row),
        ),
      ),
    ].map((row) => ({ sheet, row, isTraverse: false }));
  });
}
