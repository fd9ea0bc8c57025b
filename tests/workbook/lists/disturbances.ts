import { cellsOf, shownIn, type Taken, withCells, type XmlCell } from "./sheet-xml.js";

/** Something that happens to a workbook between its template and the office. */
export interface Disturbance {
  readonly title: string;
  /** The workbook as it then is; undefined where nothing of the kind can happen to it. */
  readonly happen: (workbook: Taken) => Taken | undefined;
}

interface WorkSheet {
  readonly name: string;
  readonly part: string;
  readonly xml: string;
  readonly cells: readonly XmlCell[];
}

/** The sheet that is filled: that with a heading “Outlet”, or with the lines of a traverse. */
function workSheet({ parts, sheets, strings }: Taken): WorkSheet {
  for (const [name, part] of sheets) {
    const xml = parts[part] ?? "";
    const cells = cellsOf(xml);
    if (cells.some((cell) => ["Outlet", "Line A"].includes(String(shownIn(cell, strings))))) {
      return { name, part, xml, cells };
    }
  }
  throw new Error("Nothing is filled in this workbook.");
}

const columnOf = ({ cells }: WorkSheet, strings: readonly string[], heading: string) =>
  cells.find((cell) => shownIn(cell, strings) === heading)?.column;

const headingRow = ({ cells }: WorkSheet, strings: readonly string[]) =>
  cells.find((cell) => shownIn(cell, strings) === "Outlet")?.row;

function changed(workbook: Taken, change: (sheet: WorkSheet) => readonly XmlCell[] | undefined): Taken | undefined {
  const sheet = workSheet(workbook);
  const cells = change(sheet);
  if (cells === undefined) return undefined;
  return { ...workbook, parts: { ...workbook.parts, [sheet.part]: withCells(sheet.xml, cells) } };
}

const styleOf = ({ attributes }: XmlCell) => / s="\d+"/.exec(attributes)?.[0] ?? "";
const numberCell = (cell: XmlCell, value: number): XmlCell => ({
  ...cell,
  attributes: styleOf(cell),
  inner: `<v>${value}</v>`,
});
const textCell = (cell: XmlCell, text: string): XmlCell => ({
  ...cell,
  attributes: `${styleOf(cell)} t="inlineStr"`,
  inner: `<is><t>${text}</t></is>`,
});
const blank = (cell: XmlCell): XmlCell => ({ ...cell, attributes: styleOf(cell), inner: "" });

/** Puts something else into one column, in every n-th row that is filled. */
function inColumn(
  title: string,
  headings: readonly string[],
  every: number,
  put: (cell: XmlCell, index: number) => XmlCell,
): Disturbance {
  return {
    title,
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const first = headingRow(sheet, workbook.strings);
        const column = headings.map((heading) => columnOf(sheet, workbook.strings, heading)).find((one) => one);
        if (first === undefined || column === undefined) return undefined;
        return sheet.cells.map((cell) => {
          const index = cell.row - first - 1;
          const isHit = cell.column === column && index >= 0 && index < 18 && index % every === 0;
          return isHit ? put(cell, index) : cell;
        });
      }),
  };
}

const READINGS = ["R1", "A1", "V1", "Measured after"];

/** Adds a row of typed cells like the first outlet's, and no formulas. */
function typedRow(
  { cells }: WorkSheet,
  strings: readonly string[],
  first: number,
  row: number,
  tag: string,
): readonly XmlCell[] {
  const model = cells.filter((cell) => cell.row === first + 1 && !cell.inner.includes("<f>"));
  return model.map((cell) => {
    const moved = { ...cell, row };
    return cell.column === columnOf({ cells } as WorkSheet, strings, "Outlet") ? textCell(moved, tag) : moved;
  });
}

function lastRow({ cells }: WorkSheet): number {
  return cells.reduce((last, { row }) => Math.max(last, row), 0);
}

/** Moves the rows of a sheet from one on down, with the references to them. */
function shifted({ cells }: WorkSheet, from: number): readonly XmlCell[] {
  const down = (row: number) => (row >= from ? row + 1 : row);
  return cells.map((cell) => ({
    ...cell,
    row: down(cell.row),
    inner: cell.inner.replace(/<f>(.*?)<\/f>/s, (_, formula: string) => {
      const moved = formula.replace(
        /(Job!)?(\$?[A-Z]{1,2}\$?)(\d+)\b/g,
        (all, job: string | undefined, column: string, row: string) =>
          job === undefined ? `${column}${down(Number(row))}` : all,
      );
      return `<f>${moved}</f>`;
    }),
  }));
}

function rename(workbook: Taken, to: string): Taken {
  const { name } = workSheet(workbook);
  const quoted = /^\w+$/.test(name) ? name : `'${name}'`;
  const parts = Object.fromEntries(
    Object.entries(workbook.parts).map(([part, xml]) => {
      const named = part === "xl/workbook.xml" ? xml.replace(`name="${name}"`, `name="${to}"`) : xml;
      return [part, named.replaceAll(`${quoted}!`, `'${to}'!`)];
    }),
  );
  return { ...workbook, parts };
}

/** A copy of the filled sheet beside it, as a spreadsheet program names it, every tag another one. */
function copied(workbook: Taken, as: (name: string) => string): Taken | undefined {
  const { name, xml, cells } = workSheet(workbook);
  const first = headingRow({ cells } as WorkSheet, workbook.strings);
  const column = columnOf({ cells } as WorkSheet, workbook.strings, "Outlet");
  const tagged = cells.map((cell) =>
    column !== undefined && cell.column === column && cell.row > (first ?? 0) && cell.inner !== ""
      ? textCell(cell, `Copy ${cell.row}`)
      : cell,
  );
  const copy = withCells(xml, tagged)
    .replace(/<tableParts.*?<\/tableParts>/s, "")
    .replace(/<drawing [^>]*>/, "");
  const { parts } = workbook;
  const part = "xl/worksheets/sheet99.xml";
  return {
    ...workbook,
    parts: {
      ...parts,
      [part]: copy,
      "xl/workbook.xml": (parts["xl/workbook.xml"] ?? "").replace(
        "</sheets>",
        `<sheet name="${as(name)}" sheetId="99" r:id="rId99"/></sheets>`,
      ),
      "xl/_rels/workbook.xml.rels": (parts["xl/_rels/workbook.xml.rels"] ?? "").replace(
        "</Relationships>",
        '<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet99.xml"/></Relationships>',
      ),
      "[Content_Types].xml": (parts["[Content_Types].xml"] ?? "").replace(
        "</Types>",
        `<Override PartName="/${part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
      ),
    },
  };
}

/** Swaps two columns with everything that refers to them on the sheet. */
function swapped({ cells }: WorkSheet, one: string, other: string): readonly XmlCell[] {
  const to = (column: string) => (column === one ? other : column === other ? one : column);
  return cells.map((cell) => ({
    ...cell,
    column: to(cell.column),
    inner: cell.inner.replace(/<f>(.*?)<\/f>/s, (_, formula: string) => {
      const moved = formula.replace(
        /(Job!)?(\$?)([A-Z]{1,2})(\$?\d+)\b/g,
        (all, job: string | undefined, dollar: string, column: string, row: string) =>
          job === undefined ? `${dollar}${to(column)}${row}` : all,
      );
      return `<f>${moved}</f>`;
    }),
  }));
}

/** Every result of a cell function, and what it makes of those that stand on it, as a program without them stores it. */
function unnamed(cells: readonly XmlCell[], isHit: (cell: XmlCell) => boolean): readonly XmlCell[] {
  return cells.map((cell) =>
    isHit(cell)
      ? { ...cell, attributes: `${styleOf(cell)} t="e"`, inner: `${withoutResult(cell)}<v>#NAME?</v>` }
      : cell,
  );
}

const withoutResult = ({ inner }: XmlCell) => inner.replace(/<v>.*<\/v>|<v\/>/s, "");

const callsVane = ({ inner }: XmlCell) => inner.includes("VANE_");

export const DISTURBANCES: readonly Disturbance[] = [
  { title: "nothing", happen: (workbook) => workbook },
  {
    title: "rows filled below the table",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const first = headingRow(sheet, workbook.strings);
        if (first === undefined) return undefined;
        const below = lastRow(sheet);
        const add = (row: number, tag: string) => typedRow(sheet, workbook.strings, first, row, tag);
        return [...sheet.cells, ...add(below + 1, "Z-1"), ...add(below + 2, "Z-2"), ...add(below + 4, "Z-4")];
      }),
  },
  {
    title: "a row inserted and typed into",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const first = headingRow(sheet, workbook.strings);
        if (first === undefined) return undefined;
        const from = first + 5;
        return [...shifted(sheet, from), ...typedRow(sheet, workbook.strings, first, from, "Z-5")];
      }),
  },
  { title: "the sheet renamed", happen: (workbook) => rename(workbook, "Level 2 east") },
  { title: "the sheet copied, as “Name (2)”", happen: (workbook) => copied(workbook, (name) => `${name} (2)`) },
  { title: "the sheet copied, as “Name_2”", happen: (workbook) => copied(workbook, (name) => `${name}_2`) },
  {
    title: "a column moved",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const [one, other] = ["System", "Note"].map((heading) => columnOf(sheet, workbook.strings, heading));
        if (headingRow(sheet, workbook.strings) === undefined || one === undefined || other === undefined)
          return undefined;
        return swapped(sheet, one, other);
      }),
  },
  {
    title: "a heading misspelt",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const hit = sheet.cells.find((cell) => shownIn(cell, workbook.strings) === "Design airflow");
        return hit && sheet.cells.map((cell) => (cell === hit ? textCell(cell, "Desing airflow") : cell));
      }),
  },
  {
    title: "a heading that stands twice",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const hit = sheet.cells.find((cell) => shownIn(cell, workbook.strings) === "System");
        const isList = headingRow(sheet, workbook.strings) !== undefined;
        return hit && isList ? sheet.cells.map((cell) => (cell === hit ? textCell(cell, "Room") : cell)) : undefined;
      }),
  },
  inColumn("rooms misspelt", ["Room"], 3, (cell) => textCell(cell, "Kitchn")),
  inColumn("kinds in another case", ["Kind"], 2, (cell) => textCell(cell, "SUPPLY ")),
  inColumn("kinds that are none", ["Kind"], 4, (cell) => textCell(cell, "intake")),
  inColumn("no kinds", ["Kind"], 2, blank),
  inColumn("one tag for several outlets", ["Outlet"], 2, (cell) => textCell(cell, "S-1")),
  inColumn("no tags", ["Outlet"], 3, blank),
  inColumn("a total among the outlets", ["Outlet"], 7, (cell) => textCell(cell, "Total")),
  inColumn("readings stored as text", READINGS, 3, (cell) => textCell(cell, "310")),
  inColumn("words among the readings", READINGS, 5, (cell) => textCell(cell, "shut")),
  inColumn("no design", ["Design airflow"], 2, blank),
  inColumn("a design in words", ["Design airflow"], 4, (cell) => textCell(cell, "later")),
  inColumn("a design of 0", ["Design airflow"], 4, (cell) => numberCell(cell, 0)),
  inColumn("no sizes", ["Width or diameter", "Width"], 3, blank),
  inColumn("an airflow typed over its formula", ["Airflow", "Airflow after"], 4, (cell) => numberCell(cell, 123)),
  inColumn("an airflow cleared", ["Airflow", "Airflow after"], 4, blank),
  {
    title: "#NAME? stored, as by a program without the functions",
    happen: (workbook) => changed(workbook, (sheet) => unnamed(sheet.cells, callsVane)),
  },
  {
    title: "no results stored",
    happen: (workbook) =>
      changed(workbook, (sheet) =>
        sheet.cells.map((cell) =>
          cell.inner.includes("<f>") ? { ...cell, attributes: styleOf(cell), inner: withoutResult(cell) } : cell,
        ),
      ),
  },
  {
    title: "a text and a total below",
    happen: (workbook) =>
      changed(workbook, (sheet) => {
        const first = headingRow(sheet, workbook.strings);
        const column = columnOf(sheet, workbook.strings, "Outlet");
        const design = columnOf(sheet, workbook.strings, "Design airflow");
        if (first === undefined || column === undefined || design === undefined) return undefined;
        const row = lastRow(sheet) + 2;
        const cell = (at: string, inRow: number): XmlCell => ({ column: at, row: inRow, attributes: "", inner: "" });
        return [
          ...sheet.cells,
          textCell(cell(column, row), "All outlets, total"),
          numberCell(cell(design, row), 2290),
          textCell(cell(column, row + 2), "Checked on site"),
        ];
      }),
  },
  {
    title: "no units on the sheet of job details",
    happen: (workbook) => {
      const part = workbook.sheets.get("Job") ?? "";
      const xml = workbook.parts[part] ?? "";
      const cells = cellsOf(xml).map((cell) => (cell.column === "B" && cell.row === 13 ? blank(cell) : cell));
      return { ...workbook, parts: { ...workbook.parts, [part]: withCells(xml, cells) } };
    },
  },
];
