import ExcelJS from "exceljs";

/*
 * Workbooks as contractors make them for themselves, each in another manner. They are made here by code, with invented
 * jobs and readings; the airflow of each outlet is worked out beside them with nothing of the project.
 */

/** One workbook and what has to be found in it. */
export interface OwnWorkbook {
  readonly title: string;
  readonly bytes: Uint8Array;
  /** What a person says of it, as on the command line. */
  readonly answers: readonly string[];
  /** By sheet and headings' row: letter, content and unit as `letter content unit`. */
  readonly columns: Readonly<Record<string, string>>;
  /** Airflow of each outlet in cfm, by `sheet!tag`. */
  readonly airflowsCfm: Readonly<Record<string, number>>;
  readonly designsCfm: Readonly<Record<string, number>>;
}

/** cfm in a liter per second, by the definition of the foot (0.3048 m). */
const CFM_OF_LS = 60 / 0.3048 ** 3 / 1000;
const CFM_OF_M3H = CFM_OF_LS / 3.6;

const mean = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;

interface Outlet {
  readonly tag: string;
  readonly room: string;
  readonly width: number;
  readonly height: number;
  readonly factor: number;
  readonly design: number;
  readonly readings: readonly (number | null)[];
}

/** Invented outlets: sizes in in, readings in fpm. */
export const OUTLETS: readonly Outlet[] = [
  {
    tag: "S-1",
    room: "Kitchen",
    width: 14,
    height: 6,
    factor: 0.75,
    design: 180,
    readings: [400, 420, 380, 390, 410, 400],
  },
  {
    tag: "S-2",
    room: "Hall",
    width: 12,
    height: 6,
    factor: 0.7,
    design: 120,
    readings: [350, 340, null, 330, 345, 360],
  },
  {
    tag: "S-3",
    room: "Bath",
    width: 8,
    height: 4,
    factor: 0.8,
    design: 60,
    readings: [300, 310, 290, 305, null, null],
  },
  {
    tag: "S-4",
    room: "Office",
    width: 10,
    height: 10,
    factor: 0.75,
    design: 220,
    readings: [430, 440, 410, 425, 415, 420],
  },
];

const taken = (outlet: Outlet) => outlet.readings.filter((one): one is number => one !== null);
const gross = ({ width, height }: Outlet) => (width * height) / 144;

type Content = number | string | { readonly formula: string; readonly result: number } | null;

function put(sheet: ExcelJS.Worksheet, row: number, contents: readonly Content[]): void {
  contents.forEach((content, index) => {
    if (content !== null) sheet.getCell(row, index + 1).value = content;
  });
}

async function written(workbook: ExcelJS.Workbook): Promise<Uint8Array> {
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const f = (formula: string, result: number) => ({ formula, result });

/** Two rows of headings, readings under one merged title, subtotals, remarks below. */
async function twoHeadings(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Air balance");
  put(sheet, 1, ["Hillside school, air balance (invented)"]);
  put(sheet, 5, [
    "Grille",
    "Room",
    "Size",
    null,
    "Free area",
    "Velocity readings (fpm)",
    null,
    null,
    null,
    null,
    null,
    "CFM",
    null,
    "% of design",
  ]);
  put(sheet, 6, [null, null, "W in", "H in", "factor", 1, 2, 3, 4, 5, 6, "Design", "Actual", null]);
  sheet.mergeCells("C5:D5");
  sheet.mergeCells("F5:K5");
  sheet.mergeCells("L5:M5");
  OUTLETS.forEach((outlet, index) => {
    const row = 7 + index;
    const flow = gross(outlet) * outlet.factor * mean(taken(outlet));
    put(sheet, row, [
      ...[outlet.tag, outlet.room, outlet.width, outlet.height, outlet.factor, ...outlet.readings, outlet.design],
      f(`C${row}*D${row}/144*E${row}*AVERAGE(F${row}:K${row})`, flow),
      f(`M${row}/L${row}`, flow / outlet.design),
    ]);
  });
  const total = OUTLETS.reduce((sum, outlet) => sum + gross(outlet) * outlet.factor * mean(taken(outlet)), 0);
  put(sheet, 11, [
    "Total",
    null,
    null,
    null,
    null,
    null,
    null,
    null,
    null,
    null,
    null,
    f("SUM(L7:L10)", 580),
    f("SUM(M7:M10)", total),
  ]);
  put(sheet, 13, ["Filters were clean on the day."]);
  return {
    title: "two rows of headings, a merged title over the readings, a total and a remark",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Air balance 6":
        "A outlet, B room, C width in, D height in, E factor ratio, F reading fpm, G reading fpm, H reading fpm, I reading fpm, J reading fpm, K reading fpm, L design cfm, M airflow cfm, N percent fraction",
    },
    airflowsCfm: Object.fromEntries(
      OUTLETS.map((one) => [`Air balance!${one.tag}`, gross(one) * one.factor * mean(taken(one))]),
    ),
    designsCfm: Object.fromEntries(OUTLETS.map((one) => [`Air balance!${one.tag}`, one.design])),
  };
}

/** Sizes in one cell, airflows from a hood as found and as left, no readings. */
async function hoodReadings(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Hood");
  put(sheet, 1, ["Job", "Mill street 4 (invented)"]);
  put(sheet, 3, [
    "No.",
    "Outlet",
    "Location",
    "Type",
    "Size",
    "Required CFM",
    "Initial CFM",
    "Final CFM",
    "Final %",
    "Remarks",
  ]);
  const rows = [
    ["R-1", "Room 101", "A", "14x6", 180, 150, 175],
    ["R-2", "Room 102", "A", '12 1/2" x 8"', 200, 240, 205],
    ["R-3", "Room 103", "B", "10 round", 150, 90, 148],
  ] as const;
  rows.forEach(([tag, room, type, size, design, found, left], index) => {
    const row = 4 + index;
    put(sheet, row, [
      index + 1,
      tag,
      room,
      type,
      size,
      design,
      found,
      left,
      f(`H${row}/F${row}*100`, (left / design) * 100),
    ]);
  });
  return {
    title: "sizes such as 14x6 in one cell, airflows as found and as left from a hood",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Hood 3":
        "B outlet, C room, D make, E size in, F design cfm, G found cfm, H left cfm, I leftPercent percent, J note",
    },
    airflowsCfm: Object.fromEntries(rows.map(([tag, , , , , , left]) => [`Hood!${tag}`, left])),
    designsCfm: Object.fromEntries(rows.map(([tag, , , , design]) => [`Hood!${tag}`, design])),
  };
}

/** A sheet a floor, round openings, the factor in the formulas alone. */
async function sheetAFloor(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const airflows: Record<string, number> = {};
  const designs: Record<string, number> = {};
  for (const floor of [1, 2, 3]) {
    const sheet = workbook.addWorksheet(`Floor ${floor}`);
    put(sheet, 2, ["Diffuser", "Dia", "Rdg 1", "Rdg 2", "Rdg 3", "Design", "CFM"]);
    [8, 10, 12].forEach((diameter, index) => {
      const row = 3 + index;
      const readings = [400 + 10 * floor, 420, 410 - 5 * index];
      const flow = ((Math.PI * diameter ** 2) / 4 / 144) * 0.8 * mean(readings);
      const design = 100 + 50 * index;
      const tag = `D${floor}-${index + 1}`;
      put(sheet, row, [
        tag,
        diameter,
        ...readings,
        design,
        f(`PI()*B${row}^2/4/144*0.8*AVERAGE(C${row}:E${row})`, flow),
      ]);
      airflows[`Floor ${floor}!${tag}`] = flow;
      designs[`Floor ${floor}!${tag}`] = design;
    });
    put(sheet, 6, [null, null, null, null, null, f("SUM(F3:F5)", 450), f("SUM(G3:G5)", 1)]);
  }
  const columns =
    "A outlet, B diameter in, C reading fpm, D reading fpm, E reading fpm, F design cfm, G airflow cfm; factor 0.8";
  return {
    title: "a sheet a floor, diameters, the factor typed into the formulas, unnamed sums below",
    bytes: await written(workbook),
    answers: [],
    columns: { "Floor 1 2": columns, "Floor 2 2": columns, "Floor 3 2": columns },
    airflowsCfm: airflows,
    designsCfm: designs,
  };
}

/** A table of the spreadsheet program and a defined name; published effective areas, one typed average. */
async function tableWithNames(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Data");
  workbook.definedNames.add("Data!$H$1", "Tolerance");
  sheet.getCell("H1").value = 0.1;
  const rows = OUTLETS.map((outlet) => {
    const ak = Number((gross(outlet) * outlet.factor).toFixed(3));
    return { tag: outlet.tag, ak, velocity: Math.round(mean(taken(outlet))), design: outlet.design };
  });
  sheet.addTable({
    name: "Grilles",
    ref: "A3",
    headerRow: true,
    columns: ["Grille tag", "Served by", "Ak (sq ft)", "Avg vel FPM", "Spec. CFM", "Measured flow"].map((name) => ({
      name,
    })),
    rows: rows.map(({ tag, ak, velocity, design }, index) => [
      tag,
      "AHU-1",
      ak,
      velocity,
      design,
      { formula: `C${4 + index}*D${4 + index}`, result: ak * velocity },
    ]),
  });
  return {
    title: "a table with a name, published effective areas, one typed average velocity",
    bytes: await written(workbook),
    answers: ["F=airflow cfm", "A=outlet"],
    columns: {
      "Data 3": "A outlet, B system, C effectiveArea ft2, D reading fpm, E design cfm, F airflow cfm",
    },
    airflowsCfm: Object.fromEntries(rows.map(({ tag, ak, velocity }) => [`Data!${tag}`, ak * velocity])),
    designsCfm: Object.fromEntries(rows.map(({ tag, design }) => [`Data!${tag}`, design])),
  };
}

/** German headings, mm, m/s, m³/h. */
async function german(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Messprotokoll");
  put(sheet, 1, ["Luftmengenprotokoll (erfunden)"]);
  put(sheet, 4, [
    "Pos.",
    "Raum",
    "Luftart",
    "Breite [mm]",
    "Höhe [mm]",
    "Faktor",
    "Soll [m³/h]",
    "MP 1 [m/s]",
    "MP 2 [m/s]",
    "MP 3 [m/s]",
    "Ist [m³/h]",
    "Abweichung",
    "Bemerkung",
  ]);
  const rows = [
    ["1.01", "Küche", "Zuluft", 300, 150, 0.8, 250, [2.1, 2.2, 2.0]],
    ["1.02", "Flur", "Abluft", 200, 100, 0.7, 100, [1.9, 2.0, 2.1]],
  ] as const;
  rows.forEach(([tag, room, kind, width, height, factor, design, readings], index) => {
    const row = 5 + index;
    const flow = (width * height * factor * mean(readings) * 3600) / 1e6;
    put(sheet, row, [
      tag,
      room,
      kind,
      width,
      height,
      factor,
      design,
      ...readings,
      f(`D${row}*E${row}/1000000*F${row}*AVERAGE(H${row}:J${row})*3600`, flow),
    ]);
  });
  return {
    title: "German headings in mm, m/s and m³/h",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Messprotokoll 4":
        "A outlet, B room, C kind, D width mm, E height mm, F factor ratio, G design m3h, H reading ms, I reading ms, J reading ms, K airflow m3h, M note",
    },
    airflowsCfm: Object.fromEntries(
      rows.map(([tag, , , width, height, factor, , readings]) => [
        `Messprotokoll!${tag}`,
        (width / 304.8) * (height / 304.8) * factor * (mean(readings) / 0.00508),
      ]),
    ),
    designsCfm: Object.fromEntries(
      rows.map(([tag, , , , , , design]) => [`Messprotokoll!${tag}`, design * CFM_OF_M3H]),
    ),
  };
}

/** Spanish headings, cm, L/s, the free area in percent. */
async function spanish(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Planta baja");
  put(sheet, 2, [
    "Rejilla",
    "Local",
    "Ancho (cm)",
    "Alto (cm)",
    "Área libre %",
    "Lectura 1 (m/s)",
    "Lectura 2 (m/s)",
    "Caudal de diseño (l/s)",
    "Caudal medido (l/s)",
    "Observaciones",
  ]);
  const rows = [
    ["I-1", "Cocina", 30, 15, 75, 60, [1.8, 2.0]],
    ["I-2", "Sala", 40, 20, 70, 110, [1.9, 2.1]],
  ] as const;
  rows.forEach(([tag, room, width, height, free, design, readings], index) => {
    const row = 3 + index;
    const flow = ((width * height) / 10_000) * (free / 100) * mean(readings) * 1000;
    put(sheet, row, [
      tag,
      room,
      width,
      height,
      free,
      ...readings,
      design,
      f(`C${row}*D${row}/10000*E${row}/100*AVERAGE(F${row}:G${row})*1000`, flow),
    ]);
  });
  return {
    title: "Spanish headings in cm, m/s and L/s, the free area in percent",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Planta baja 2":
        "A outlet, B room, C width cm, D height cm, E factor percentfree, F reading ms, G reading ms, H design ls, I airflow ls, J note",
    },
    airflowsCfm: Object.fromEntries(
      rows.map(([tag, , width, height, free, , readings]) => [
        `Planta baja!${tag}`,
        ((width / 30.48) * (height / 30.48) * free * (mean(readings) / 0.00508)) / 100,
      ]),
    ),
    designsCfm: Object.fromEntries(rows.map(([tag, , , , , design]) => [`Planta baja!${tag}`, design * CFM_OF_LS])),
  };
}

/** Columns in another order, readings in places apart, an area in square inches, headings that say little. */
async function scattered(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Sheet1");
  put(sheet, 1, ["Actual", "Design", "Register", "N", "A sq in", "E", "Factor", "S", "Room", "W"]);
  sheet.getCell("E1").value = "Core area (sq in)";
  OUTLETS.forEach((outlet, index) => {
    const row = 2 + index;
    const [north = 0, , east = 0, , south = 0, west = 0] = outlet.readings.map((one) => one ?? 365);
    const flow = gross(outlet) * outlet.factor * mean([north, east, south, west]);
    put(sheet, row, [
      f(`AVERAGE(D${row},F${row},H${row},J${row})*E${row}/144*G${row}`, flow),
      ...[
        outlet.design,
        outlet.tag,
        north,
        outlet.width * outlet.height,
        east,
        outlet.factor,
        south,
        outlet.room,
        west,
      ],
    ]);
  });
  return {
    title:
      "columns in another order and readings apart from each other, with headings that only their formula explains",
    bytes: await written(workbook),
    answers: ["D=readings fpm", "J=readings fpm"],
    columns: {
      "Sheet1 1":
        "A airflow cfm, B design cfm, C outlet, D reading fpm, E area in2, F reading fpm, G factor ratio, H reading fpm, I room, J reading fpm",
    },
    airflowsCfm: Object.fromEntries(
      OUTLETS.map((one) => {
        const [north = 0, , east = 0, , south = 0, west = 0] = one.readings.map((reading) => reading ?? 365);
        return [`Sheet1!${one.tag}`, gross(one) * one.factor * mean([north, east, south, west])];
      }),
    ),
    designsCfm: Object.fromEntries(OUTLETS.map((one) => [`Sheet1!${one.tag}`, one.design])),
  };
}

/** Sweeps of unequal length with their seconds, units in a row of their own. */
async function sweeps(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Sweeps");
  put(sheet, 1, [
    "Tag",
    "Width",
    "Height",
    "Factor",
    "Sweep 1",
    "Time 1",
    "Sweep 2",
    "Time 2",
    "Design flow",
    "Airflow",
  ]);
  put(sheet, 2, [null, "in", "in", null, "fpm", "sec", "fpm", "sec", "cfm", "cfm"]);
  const rows = [
    ["E-1", 20, 20, 0.7, [410, 20, 430, 40], 800],
    ["E-2", 24, 12, 0.75, [390, 30, 402, 30], 600],
  ] as const;
  const swept = ([v1, s1, v2, s2]: readonly [number, number, number, number]) => (v1 * s1 + v2 * s2) / (s1 + s2);
  rows.forEach(([tag, width, height, factor, readings, design], index) => {
    const row = 3 + index;
    const flow = ((width * height) / 144) * factor * swept(readings);
    put(sheet, row, [
      tag,
      width,
      height,
      factor,
      ...readings,
      design,
      f(`B${row}*C${row}/144*D${row}*(E${row}*F${row}+G${row}*H${row})/(F${row}+H${row})`, flow),
    ]);
  });
  return {
    title: "sweeps with their seconds, and the units in a row below the headings",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Sweeps 2":
        "A outlet, B width in, C height in, D factor ratio, E sweep fpm, F seconds s, G sweep fpm, H seconds s, I design cfm, J airflow cfm",
    },
    airflowsCfm: Object.fromEntries(
      rows.map(([tag, width, height, factor, readings]) => [
        `Sweeps!${tag}`,
        ((width * height) / 144) * factor * swept(readings),
      ]),
    ),
    designsCfm: Object.fromEntries(rows.map(([tag, , , , , design]) => [`Sweeps!${tag}`, design])),
  };
}

/** Two lists on one sheet, titles of systems between the outlets, free areas in in². */
async function twoLists(): Promise<OwnWorkbook> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Balance");
  const supply = ["Outlet", "Free area (in²)", "Vel 1", "Vel 2", "Design CFM", "Actual CFM"];
  put(sheet, 2, supply);
  put(sheet, 3, ["AHU-1"]);
  const airflows: Record<string, number> = {};
  const designs: Record<string, number> = {};
  const line = (row: number, tag: string, area: number, one: number, two: number, design: number) => {
    put(sheet, row, [
      tag,
      area,
      one,
      two,
      design,
      f(`B${row}/144*AVERAGE(C${row}:D${row})`, (area / 144) * mean([one, two])),
    ]);
    airflows[`Balance!${tag}`] = (area / 144) * mean([one, two]);
    designs[`Balance!${tag}`] = design;
  };
  line(4, "S1", 60, 400, 420, 170);
  line(5, "S2", 70, 380, 400, 190);
  put(sheet, 6, ["AHU-2"]);
  line(7, "S3", 90, 410, 430, 260);
  put(sheet, 10, ["Return grille", "Flow CFM", "Design CFM"]);
  put(sheet, 11, ["R1", 500, 520]);
  put(sheet, 12, ["R2", 480, 470]);
  Object.assign(airflows, { "Balance!R1": 500, "Balance!R2": 480 });
  Object.assign(designs, { "Balance!R1": 520, "Balance!R2": 470 });
  return {
    title: "two lists on one sheet, titles of systems between the outlets, free areas in in²",
    bytes: await written(workbook),
    answers: [],
    columns: {
      "Balance 2": "A outlet, B freeArea in2, C reading fpm, D reading fpm, E design cfm, F airflow cfm",
      "Balance 10": "A outlet, B airflow cfm, C design cfm",
    },
    airflowsCfm: airflows,
    designsCfm: designs,
  };
}

/** Every make, made anew. */
export async function ownWorkbooks(): Promise<readonly OwnWorkbook[]> {
  return Promise.all([
    ...[twoHeadings(), hoodReadings(), sheetAFloor(), tableWithNames(), german(), spanish()],
    ...[scattered(), sweeps(), twoLists()],
  ]);
}
