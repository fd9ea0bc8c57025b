import ExcelJS from "exceljs";
import type { CheckKind } from "../../../src/workbook/index.js";

/*
 * Three makes of workbook with plain formulas, and mistakes planted in them: a German one in mm, m/s and m³/h; round
 * diffusers with a column for the average; areas and averages in columns of their own, readings taken from a sheet of field
 * notes, the factor in one cell, sums by system. Invented figures. No result is stored: a check calculates them.
 */

export type Make = "german" | "round" | "by system";
type Plant = (sheet: ExcelJS.Worksheet, field: ExcelJS.Worksheet) => void;

const formula = (text: string) => ({ formula: text }) as ExcelJS.CellFormulaValue;
const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);

/** Figures between two limits, the same every time. */
const figures = (count: number, seed: number, least: number, most: number, digits: number) =>
  Array.from({ length: count }, (_, index) =>
    Number((least + (most - least) * Math.abs(Math.sin(seed + 7 * index))).toFixed(digits)),
  );

function german(workbook: ExcelJS.Workbook): readonly [ExcelJS.Worksheet, ExcelJS.Worksheet] {
  const sheet = workbook.addWorksheet("Messprotokoll");
  sheet.getRow(3).values = [
    ...["Pos", "Raum", "Breite [mm]", "Höhe [mm]", "v1 [m/s]", "v2 [m/s]", "v3 [m/s]", "v4 [m/s]", "Faktor"],
    ...["Ist [m³/h]", "Soll [m³/h]", "% vom Soll"],
  ];
  for (let row = 4; row <= 15; row += 1) {
    const [width, height] = [200 + 50 * (row % 4), 100 + 50 * (row % 3)];
    const readings = figures(4, row, 2, 3.2, 2);
    const flow = (width / 1000) * (height / 1000) * (sum(readings) / 4) * 0.75 * 3600;
    sheet.getRow(row).values = [
      ...[row - 3, `Büro ${row}`, width, height, ...readings, 0.75],
      formula(`C${row}/1000*D${row}/1000*AVERAGE(E${row}:H${row})*I${row}*3600`),
      ...[Math.round(flow / (0.95 + 0.01 * (row % 9))), formula(`J${row}/K${row}*100`)],
    ];
  }
  sheet.getRow(16).values = ["Summe", ...Array(8).fill(null), formula("SUM(J4:J15)"), formula("SUM(K4:K15)")];
  sheet.getCell("L16").value = formula("J16/K16*100");
  return [sheet, sheet];
}

function round(workbook: ExcelJS.Workbook): readonly [ExcelJS.Worksheet, ExcelJS.Worksheet] {
  const sheet = workbook.addWorksheet("Second floor");
  const readingHeadings = [1, 2, 3, 4, 5, 6].map((number) => `Reading ${number}`);
  sheet.getRow(2).values = ["Tag", "Room", "Dia", ...readingHeadings, "Avg Vel", "CFM", "Design CFM", "% of Design"];
  for (let row = 3; row <= 12; row += 1) {
    const diameter = [6, 8, 10, 12][row % 4] ?? 6;
    const readings = figures(6, row, 380, 500, 0);
    const flow = (Math.PI / 4) * (diameter / 12) ** 2 * (sum(readings) / 6) * 0.8;
    sheet.getRow(row).values = [
      ...[`D-${row}`, `Room ${row}`, diameter, ...readings, formula(`AVERAGE(D${row}:I${row})`)],
      formula(`PI()/4*(C${row}/12)^2*J${row}*0.8`),
      ...[Math.round(flow / (0.95 + 0.01 * (row % 9))), formula(`K${row}/L${row}`)],
    ];
  }
  sheet.getRow(13).values = ["Total", ...Array(9).fill(null), formula("SUM(K3:K12)"), formula("SUM(L3:L12)")];
  sheet.getCell("M13").value = formula("K13/L13");
  return [sheet, sheet];
}

function bySystem(workbook: ExcelJS.Workbook): readonly [ExcelJS.Worksheet, ExcelJS.Worksheet] {
  const sheet = workbook.addWorksheet("Balance");
  const field = workbook.addWorksheet("Field");
  sheet.getCell("N2").value = 0.72;
  const points = [1, 2, 3, 4, 5].map((number) => `Pt ${number}`);
  sheet.getRow(4).values = [
    "System",
    "Outlet",
    "L in",
    "W in",
    "Area sqft",
    ...points,
    "AVG fpm",
    "CFM",
    "Design CFM",
    "%",
  ];
  let row = 5;
  for (const system of ["AHU-1", "AHU-2"]) {
    const first = row;
    for (let index = 0; index < 5; index += 1, row += 1) {
      const [length, width] = [10 + 2 * index, 6 + 2 * (index % 2)];
      const readings = figures(5, row, 400, 550, 0);
      const flow = ((length * width) / 144) * (sum(readings) / 5) * 0.72;
      field.getRow(row).values = [`${system}-${index}`, ...readings];
      sheet.getRow(row).values = [
        ...[system, `S${row}`, length, width, formula(`C${row}*D${row}/144`)],
        ...["B", "C", "D", "E", "F"].map((letter) => formula(`Field!${letter}${row}`)),
        ...[formula(`AVERAGE(F${row}:J${row})`), formula(`E${row}*K${row}*$N$2`)],
        ...[Math.round(flow / (0.95 + 0.01 * index)), formula(`L${row}/M${row}`)],
      ];
    }
    const sums = ["L", "M"].map((letter) => formula(`SUM(${letter}${first}:${letter}${row - 1})`));
    sheet.getRow(row).values = [`Subtotal ${system}`, ...Array(10).fill(null), ...sums, formula(`L${row}/M${row}`)];
    row += 1;
  }
  sheet.getRow(17).values = [
    "Total",
    ...Array(10).fill(null),
    formula("L10+L16"),
    formula("M10+M16"),
    formula("L17/M17"),
  ];
  return [sheet, field];
}

const MAKES = { german, round, "by system": bySystem } as const;

/** A make with something planted in it. */
export async function madeWorkbook(make: Make, plant: Plant = () => undefined): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  plant(...MAKES[make](workbook));
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

/** One mistake, where it has to be found, and what has to be said of it. */
export interface PlantedMistake {
  readonly title: string;
  readonly make: Make;
  readonly plant: Plant;
  readonly cell: string;
  readonly kind: CheckKind;
  readonly says: RegExp;
  /** Its kind where nobody has said what the columns hold; null where nothing shows it then. */
  readonly withoutMapping: CheckKind | null;
}

const put =
  (address: string, value: ExcelJS.CellValue): Plant =>
  (sheet) => {
    sheet.getCell(address).value = value;
  };

export const PLANTED_IN_MAKES: readonly PlantedMistake[] = [
  {
    title: "360 typed for 3600",
    make: "german",
    plant: put("J7", formula("C7/1000*D7/1000*AVERAGE(E7:H7)*I7*360")),
    cell: "J7",
    kind: "result-not-from-inputs",
    says: /It is 0\.1 times as large\. The formula has 360 where 3600 would be expected/,
    withoutMapping: "formula-differs",
  },
  {
    title: "a percent upside down",
    make: "german",
    plant: put("L8", formula("K8/J8*100")),
    cell: "L8",
    kind: "result-not-from-inputs",
    says: /divides the design by the airflow/,
    withoutMapping: "formula-differs",
  },
  {
    title: "the readings of the row above",
    make: "german",
    plant: put("J9", formula("C9/1000*D9/1000*AVERAGE(E8:H8)*I9*3600")),
    cell: "J9",
    kind: "result-not-from-inputs",
    says: /reads row 8, which belongs to another outlet/,
    withoutMapping: "formula-differs",
  },
  {
    title: "four readings divided by three",
    make: "german",
    plant: put("J10", formula("C10/1000*D10/1000*(E10+F10+G10+H10)/3*I10*3600")),
    cell: "J10",
    kind: "result-not-from-inputs",
    says: /sum of 4 readings is divided by 3/,
    withoutMapping: "formula-differs",
  },
  {
    title: "a size in cm among sizes in mm",
    make: "german",
    plant: (sheet) => {
      sheet.getCell("C6").value = 30;
      sheet.getCell("D6").value = 10;
    },
    cell: "C6:D6",
    kind: "size-in-other-unit",
    says: /where cm would make it/,
    withoutMapping: null,
  },
  {
    title: "a diameter taken as a radius",
    make: "round",
    plant: put("K6", formula("PI()*(C6/12)^2*J6*0.8")),
    cell: "K6",
    kind: "result-not-from-inputs",
    says: /diameter is taken as the radius/,
    withoutMapping: "formula-differs",
  },
  {
    title: "a factor of 0.08 for 0.8",
    make: "round",
    plant: put("K5", formula("PI()/4*(C5/12)^2*J5*0.08")),
    cell: "K5",
    kind: "result-not-from-inputs",
    says: /The formula has 0\.08 where 0\.8 would be expected/,
    withoutMapping: "formula-differs",
  },
  {
    title: "a reading with its unit behind it",
    make: "round",
    plant: put("F8", "420 fpm"),
    cell: "F8",
    kind: "text-reading",
    says: /“420 fpm” is no number, so that an average leaves it out/,
    withoutMapping: "text-reading",
  },
  {
    title: "an airflow typed over its formula",
    make: "round",
    plant: put("K9", 150),
    cell: "K9",
    kind: "formula-replaced",
    says: /150 was typed over the formula/,
    withoutMapping: "formula-replaced",
  },
  {
    title: "a factor one cell off",
    make: "by system",
    plant: put("L7", formula("E7*K7*N3")),
    cell: "L7",
    kind: "result-not-from-inputs",
    says: /takes N3, which is empty, as 0/,
    withoutMapping: "formula-differs",
  },
  {
    title: "a reading taken from an empty cell of the field notes",
    make: "by system",
    plant: (_sheet, field) => {
      field.getCell("D9").value = null;
    },
    cell: "H9",
    kind: "blank-as-zero",
    says: /takes its reading from D9, which is empty/,
    withoutMapping: "blank-as-zero",
  },
  {
    title: "percents averaged in the total",
    make: "by system",
    plant: put("N17", formula("AVERAGE(N5:N9,N11:N15)")),
    cell: "N17",
    kind: "percents-added-up",
    says: /averages the percents of outlets/,
    withoutMapping: null,
  },
  {
    title: "a total over the outlets and their sums",
    make: "by system",
    plant: put("L17", formula("SUM(L5:L16)")),
    cell: "L17",
    kind: "counted-twice",
    says: /their own sums in L10, L16 as well/,
    withoutMapping: "counted-twice",
  },
  {
    title: "a sum that ends one row short",
    make: "by system",
    plant: put("L16", formula("SUM(L11:L14)")),
    cell: "L16",
    kind: "range-stops-short",
    says: /leaves out L15/,
    withoutMapping: "range-stops-short",
  },
];
