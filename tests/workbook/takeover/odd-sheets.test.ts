import ExcelJS from "exceljs";
import { describe, expect, it } from "vitest";
import { XLSX_TASKS } from "../../../src/hosts/page/file/xlsx-tasks.js";
import {
  checkedFile,
  checkWorkbook,
  fileSource,
  findLists,
  listAt,
  mappingEdits,
  mappingOf,
  mappingsIn,
  proposeColumns,
  readAnswer,
  readList,
  withAnswers,
} from "../../../src/workbook/index.js";
import { copySheet, nameEdits, openWorkbook, patchWorkbook, type Workbook } from "../../../src/xlsx/index.js";

/*
 * Sheets whose outlets are laid out as people lay them out: side by side, below titles, in merged cells, with sums in
 * between. Invented figures.
 */

type Fill = (sheet: ExcelJS.Worksheet, workbook: ExcelJS.Workbook) => void;

async function made(fill: Fill, name = "Floor 2"): Promise<Workbook> {
  const workbook = new ExcelJS.Workbook();
  fill(workbook.addWorksheet(name), workbook);
  return openWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), "own.xlsx");
}

const HEADINGS = ["Grille", "Room", "Vel 1", "Vel 2", "Design CFM", "Actual CFM"];
const flow = (letters: readonly [string, string], row: number, factor: number, sum: number) => ({
  formula: `AVERAGE(${letters[0]}${row}:${letters[1]}${row})*${factor}`,
  result: (sum / 2) * factor,
});

/** Two lists beside each other, a system over each, a room merged over three outlets, a sum between them. */
const sideBySide: Fill = (sheet) => {
  sheet.getCell("A1").value = "Second floor (invented)";
  sheet.getCell("A3").value = "AHU-2, second floor";
  sheet.getCell("H3").value = "System: AHU-3";
  sheet.getRow(4).values = [...HEADINGS, null, ...HEADINGS];
  for (const [index, row] of [5, 6, 7, 9, 10].entries()) {
    const room = row === 5 ? "Hall" : row === 9 ? "Lab" : null;
    sheet.getRow(row).values = [
      ...[`S${index + 1}`, room, 400 + index, 420, 160, flow(["C", "D"], row, 0.4, 820 + index), null],
      ...[`T${index + 1}`, room, 300 + index, 320, 110, flow(["J", "K"], row, 0.35, 620 + index)],
    ];
  }
  sheet.mergeCells("B5:B7");
  const sum = (column: string) => ({ formula: `SUM(${column}5:${column}7)`, result: 480 });
  sheet.getRow(8).values = [
    null,
    null,
    null,
    null,
    sum("E"),
    sum("F"),
    null,
    "AHU-3",
    null,
    null,
    null,
    sum("L"),
    sum("M"),
  ];
};

function takenOver(workbook: Workbook, answers: readonly string[] = []): Workbook {
  const lists = proposeColumns(fileSource(workbook)).map((list) => withAnswers(list, answers.map(readAnswer)));
  for (const { missing, columns } of lists) {
    expect(missing).toEqual([]);
    expect(columns.filter(({ question }) => question !== "")).toEqual([]);
  }
  return openWorkbook(patchWorkbook(workbook, mappingEdits(workbook, lists.map(mappingOf))), "own.xlsx");
}

const outletsOf = (workbook: Workbook) =>
  findLists(fileSource(workbook)).value.flatMap((list) => readList(list, null).outlets);

describe("Lists side by side", () => {
  it("are told apart, each with its system from the title over it, and its sums counted for none", async () => {
    const outlets = outletsOf(takenOver(await made(sideBySide)));
    expect(outlets.map(({ tag, system, room, measured }) => [tag, system, room, measured])).toEqual([
      ...[0, 1, 2, 3, 4].map((index) => [
        ...[`S${index + 1}`, "AHU-2", index < 3 ? "Hall" : index === 3 ? "Lab" : ""],
        expect.closeTo(((820 + index) / 2) * 0.4, 9),
      ]),
      ...[0, 1, 2, 3, 4].map((index) => [
        ...[`T${index + 1}`, "AHU-3", index === 0 ? "Hall" : index === 3 ? "Lab" : ""],
        expect.closeTo(((620 + index) / 2) * 0.35, 9),
      ]),
    ]);
  });

  it("are found by the column of a cell, also in the empty column between them", async () => {
    const lists = findLists(fileSource(takenOver(await made(sideBySide)))).value;
    const tagAt = (column: number) => listAt(lists, { row: 6, column })?.columns.get("outlet");
    expect([1, 6, 7, 8, 13, 20].map(tagAt)).toEqual([1, 1, 1, 8, 8, 8]);
    expect(listAt(lists, { row: 2, column: 1 })).toBeUndefined();
  });

  it("have a title that is merged over both", async () => {
    const workbook = await made((sheet, book) => {
      sideBySide(sheet, book);
      sheet.getCell("H3").value = null;
      sheet.mergeCells("A3:M3");
    });
    const systems = outletsOf(takenOver(workbook)).map(({ system }) => system);
    expect(systems).toHaveLength(10);
    expect(new Set(systems)).toEqual(new Set(["AHU-2"]));
  });

  it("are both read where one has headings of its own and the other those that everybody knows", async () => {
    const known = ["Outlet", "Room", "R1", "R2", "Design airflow", "Airflow"];
    const workbook = await made((sheet) => {
      sheet.getRow(4).values = [...HEADINGS, null, ...known];
      for (const row of [5, 6, 7]) {
        sheet.getRow(row).values = [
          ...[`S${row}`, "Hall", 400, 420, 160, flow(["C", "D"], row, 0.4, 820), null],
          ...[`T${row}`, "Lab", 300, 320, 110, flow(["J", "K"], row, 0.35, 620)],
        ];
      }
    });
    const lists = proposeColumns(fileSource(workbook)).filter(({ firstColumn }) => firstColumn < 7);
    const kept = openWorkbook(patchWorkbook(workbook, mappingEdits(workbook, lists.map(mappingOf))), "own.xlsx");
    expect(
      findLists(fileSource(kept))
        .value.map(({ foundBy }) => foundBy)
        .toSorted(),
    ).toEqual(["headings", "mapping"]);
    expect(outletsOf(kept).map(({ tag }) => tag)).toEqual(["S5", "S6", "S7", "T5", "T6", "T7"]);
  });

  it("take an answer for the list whose column it names, and keep the other", async () => {
    const workbook = await made(sideBySide);
    const [left, right] = proposeColumns(fileSource(workbook)).map((list) =>
      withAnswers(list, [readAnswer("I=nothing"), readAnswer("titles=nothing")]),
    );
    const held = (list: typeof left) => list?.columns.find(({ heading }) => heading === "Room")?.content;
    expect([held(left), held(right)]).toEqual([{ key: "room" }, null]);
    expect(left?.stated.titles).toBeUndefined();
  });

  it("are told apart where no empty column parts them, and by headings that everybody knows", async () => {
    const both = ["Outlet", "Design airflow", "Airflow"];
    const rows: Fill = (sheet) => {
      sheet.getRow(2).values = [...both, ...both];
      sheet.getRow(3).values = ["S1", 100, 95, "R1", 90, 92];
      sheet.getRow(4).values = ["S2", 120, 130, "R2", 80, 70];
    };
    const sides = proposeColumns(fileSource(await made(rows)));
    expect(sides.map(({ firstColumn, lastColumn }) => [firstColumn, lastColumn])).toEqual([
      [1, 3],
      [4, 6],
    ]);
    const apart: Fill = (sheet) => {
      sheet.getRow(2).values = [...both, null, ...both];
      sheet.getRow(3).values = ["S1", 100, 95, null, "R1", 90, 92];
    };
    expect(outletsOf(await made(apart)).map(({ tag, design }) => [tag, design])).toEqual([
      ["S1", 100],
      ["R1", 90],
    ]);
  });
});

describe("Titles over outlets", () => {
  const titled: Fill = (sheet) => {
    sheet.getRow(1).values = ["Grille", "Design CFM", "Actual CFM"];
    ["North wing", "S1", "S2", "South wing", "S3"].forEach((text, index) => {
      sheet.getRow(2 + index).values = text.startsWith("S") && text.length < 4 ? [text, 100, 95] : [text];
    });
    sheet.getCell("A9").value = "Filters were clean.";
  };

  it("name nothing where their words are not known, until a person says what they name", async () => {
    const workbook = await made(titled);
    const [list] = proposeColumns(fileSource(workbook));
    expect(list?.titles).toEqual(["North wing", "South wing"]);
    expect(outletsOf(takenOver(workbook)).map(({ system }) => system)).toEqual(["", "", ""]);
    const said = outletsOf(takenOver(workbook, ["titles=system"]));
    expect(said.map(({ tag, system }) => [tag, system])).toEqual([
      ["S1", "North wing"],
      ["S2", "North wing"],
      ["S3", "South wing"],
    ]);
  });
});

describe("Rows that a filter hides", () => {
  it("count, and are said", async () => {
    const workbook = await made((sheet) => {
      sheet.getRow(1).values = ["Outlet", "Design airflow", "Airflow"];
      for (const row of [2, 3, 4, 5]) sheet.getRow(row).values = [`S${row}`, 100, 95];
      sheet.autoFilter = "A1:C5";
      for (const row of [3, 4]) sheet.getRow(row).hidden = true;
    });
    expect(outletsOf(workbook)).toHaveLength(4);
    const { findings } = checkWorkbook(checkedFile(workbook));
    expect(findings.map(({ kind, cell, problem }) => [kind, cell, problem])).toEqual([
      [
        "hidden-outlets",
        "A3:A4",
        "2 outlets are hidden, by a filter or by hand (S3, S4 in rows 3 to 4), and count all the same.",
      ],
    ]);
  });
});

describe("Outlets hidden in lists side by side", () => {
  it("are said of each list", async () => {
    const workbook = takenOver(
      await made((sheet, book) => {
        sideBySide(sheet, book);
        sheet.getRow(7).hidden = true;
      }),
    );
    const { findings } = checkWorkbook(checkedFile(workbook));
    expect(findings.map(({ kind, cell }) => [kind, cell])).toEqual([
      ["hidden-outlets", "A7"],
      ["hidden-outlets", "H7"],
    ]);
  });
});

describe("A copied sheet, whose names are its own", () => {
  it("is a list of its own in the file and on the page", async () => {
    const workbook = takenOver(await made(sideBySide));
    const mapped = mappingsIn(workbook.names).value;
    const { workbook: two } = copySheet(workbook, { sheet: "Floor 2", name: "Floor 3" });
    const kept = two.archive.bytes;
    expect(mappingsIn(two.names).value.map(({ sheet }) => sheet)).toEqual(["Floor 2", "Floor 2", "Floor 3", "Floor 3"]);
    expect(outletsOf(two).filter(({ list }) => list.sheet === "Floor 3")).toHaveLength(10);
    const { data } = XLSX_TASKS.read(kept, "two.xlsx");
    const ranges = Object.entries((data as { namedRanges: Record<string, string> }).namedRanges);
    const onPage = mappingsIn(ranges.map(([name, refersTo]) => ({ name, sheet: undefined, refersTo }))).value;
    expect(onPage.map(({ list, sheet, columns }) => [list, sheet, columns.length])).toEqual(
      ["Floor 2", "Floor 2", "Floor 3", "Floor 3"].map((sheet, index) => [
        index + 1,
        sheet,
        mapped[index % 2]?.columns.length,
      ]),
    );
  });
});

describe("A column that was deleted", () => {
  it("is told by a check", async () => {
    const workbook = takenOver(await made(sideBySide));
    const names = workbook.names.map(({ name, refersTo }) => ({
      ...{ name, isHidden: true },
      refersTo: /list1\.room/.test(name) ? "'Floor 2'!#REF!" : refersTo,
    }));
    const changed = openWorkbook(
      patchWorkbook(
        workbook,
        nameEdits(workbook, names, () => true),
      ),
      "own.xlsx",
    );
    const { findings } = checkWorkbook(checkedFile(changed));
    expect(findings.map(({ kind, problem }) => [kind, problem])).toEqual([
      ["column-gone", "The column that held “room” is gone, so it is not read (list 1 of the workbook)."],
    ]);
  });
});

describe("A factor in a cell of its own", () => {
  it("is the factor of every outlet, and follows the cell", async () => {
    const fill =
      (factor: number): Fill =>
      (sheet) => {
        sheet.getCell("J1").value = factor;
        sheet.getRow(3).values = ["Outlet", "L in", "W in", "Pt 1", "Pt 2", "CFM", "Design CFM"];
        for (const row of [4, 5]) {
          const formula = `B${row}*C${row}/144*AVERAGE(D${row}:E${row})*$J$1`;
          sheet.getRow(row).values = [`S${row}`, 12, 8, 400, 420, { formula, result: (96 / 144) * 410 * factor }, 200];
        }
      };
    const workbook = await made(fill(0.72));
    expect(outletsOf(takenOver(workbook)).map(({ factor, width, height }) => [factor, width, height])).toEqual([
      [0.72, 12, 8],
      [0.72, 12, 8],
    ]);
    const kept = takenOver(workbook);
    expect(checkWorkbook(checkedFile(kept)).findings).toEqual([]);
  });
});
