import { describe, expect, it } from "vitest";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import {
  BALANCE_BLOCKS,
  type BalanceBlock,
  type CellContent,
  jobCell,
  jobEntries,
  TEMPLATES,
} from "../../../src/workbook/index.js";
import { cellUnder } from "../../support/plan-places.js";

/** The first data row of each table. */
const FIRST_ROWS = { Outlets: 9, Rooms: 6, Systems: 6 } as const;

type TableName = keyof typeof FIRST_ROWS;
type Rows = readonly Readonly<Record<string, CellContent>>[];

/** A room balance with blocks, filled; what its tables show, by heading and row. */
function balance(blocks: readonly BalanceBlock[], filled: Readonly<Partial<Record<TableName, Rows>>>) {
  const plan = TEMPLATES["room-balance"]("", { blocks });
  const place = (table: TableName, header: string, index: number) =>
    cellUnder(plan, table, header, FIRST_ROWS[table] + index);
  const entries = Object.fromEntries(
    Object.entries(filled).map(([table, rows]) => [
      table,
      Object.fromEntries(
        rows.flatMap((row, index) =>
          Object.entries(row).map(([header, value]) => [place(table as TableName, header, index), value] as const),
        ),
      ),
    ]),
  );
  const results = calculatePlan(plan, entries);
  return (table: TableName, header: string) =>
    (filled[table] ?? []).map((_, index) => results.get(table)?.get(place(table, header, index))?.value);
}

const about = (values: readonly unknown[]) =>
  values.map((value) => (typeof value === "number" ? Math.round(value * 10) / 10 : value));

const outlet = (tag: string, room: string, more: Readonly<Record<string, CellContent>> = {}) => ({
  Outlet: tag,
  System: "AHU-1",
  Room: room,
  Kind: "supply",
  "Width or diameter": 12,
  Height: 12,
  Factor: 1,
  ...more,
});

describe("a room's design split over its outlets", () => {
  const rooms: Rows = [
    { Room: "Even", System: "AHU-1", "Design set": 300 },
    { Room: "Area", System: "AHU-1", "Design set": 300, Split: "by area" },
    { Room: "Shares", System: "AHU-1", "Design set": 300, Split: "by shares" },
    { Room: "Gap", System: "AHU-1", "Design set": 300, Split: "by shares" },
  ];
  const shown = balance(["shares"], {
    Rooms: rooms,
    Systems: [{ System: "AHU-1", "Supply design": 1300 }],
    Outlets: [
      outlet("E1", "Even", { "Design set": 120 }),
      outlet("E2", "Even"),
      outlet("E3", "Even"),
      outlet("A1", "Area"),
      outlet("A2", "Area", { "Width or diameter": 24 }),
      outlet("S1", "Shares", { Share: 1 }),
      outlet("S2", "Shares", { Share: 2 }),
      outlet("G1", "Gap", { Share: 1 }),
      outlet("G2", "Gap"),
      outlet("R1", "Even", { Kind: "return" }),
    ],
  });

  it("goes evenly, by free area or by typed shares, after what is set at an outlet", () => {
    expect(about(shown("Outlets", "Design airflow").slice(0, 7))).toEqual([120, 90, 90, 100, 200, 100, 200]);
  });

  it("splits nothing while a share is missing, gives a return nothing, and says so at the room and the fan", () => {
    expect(shown("Outlets", "Design airflow").slice(7)).toEqual(["", "", ""]);
    expect(shown("Rooms", "Outlets against room")).toEqual(["agree", "agree", "agree", "design missing"]);
    expect(shown("Systems", "Outlets against fan")).toEqual(["design missing"]);
    expect(shown("Systems", "Rooms against fan")).toEqual(["100 under"]);
  });
});

describe("the rule that gives a room its design", () => {
  /*
   * Shares: airflow of the season times load over all loads. Temperature: 6000 Btu/h at 20 °F is 277.8 cfm at 1.08.
   * Tons: 2 tons at 400 cfm (10 CFR 430 App. M) is 800 cfm, by cooling load. Air changes: 6 of 1000 ft³ an hour.
   * Ventilation: 5 people at 5 cfm and 200 ft² at 0.06 cfm/ft².
   */
  const system = {
    System: "AHU-1",
    "Heating supply": 600,
    "Cooling supply": 800,
    "Heating ΔT": 20,
    "Cooling capacity": 2,
  };
  const rules = ["", "heating share", "cooling share", "temperature", "tons", "air changes", "ventilation"];
  const room = (name: string, more: Readonly<Record<string, CellContent>>) => ({
    Room: name,
    System: "AHU-1",
    ...more,
  });
  const first = {
    "Heating load": 6000,
    "Cooling load": 3000,
    "Floor area": 200,
    People: 5,
    "Air per person": 5,
    "Air per area": 0.06,
    Volume: 1000,
    "Air changes wanted": 6,
  };
  const second = room("B", { "Heating load": 4000, "Cooling load": 5000 });
  const expected = [360, 360, 300, 277.8, 300, 100, 37];

  it.each(rules.map((rule, index) => [rule || "none chosen", rule, expected[index]] as const))(
    "is seen and taken: %s",
    (_, rule, design) => {
      const shown = balance(["seasons"], {
        Systems: [system],
        Rooms: [room("A", rule === "" ? first : { ...first, "Design by": rule }), second],
      });
      expect(about(shown("Rooms", "Design airflow"))).toEqual([design, 500]);
      expect(shown("Rooms", "Design from")[0]).toBe(rule || "heating share");
      // Every other one stands beside it.
      const beside = ["Share by heating", "Share by cooling", "By temperature", "By tons", "By air changes"];
      expect(about(beside.map((header) => shown("Rooms", header)[0]))).toEqual([360, 300, 277.8, 300, 100]);
      expect(about(shown("Systems", "Supply design"))).toEqual([800]);
    },
  );

  it("says where the chosen rule has no figures, and lets a set design come first", () => {
    const shown = balance(["seasons"], {
      Systems: [system],
      Rooms: [
        room("A", { "Heating load": 6000, "Design by": "air changes" }),
        room("B", { "Heating load": 4000, "Design by": "ventilation", "Design set": 90 }),
        room("C", { People: 5, "Design by": "ventilation" }),
      ],
    });
    expect(shown("Rooms", "Design airflow")).toEqual(["", 90, ""]);
    expect(shown("Rooms", "Design from")).toEqual(["missing", "set", "missing"]);
    expect(shown("Systems", "Rooms against fan")).toEqual(["design missing"]);
  });
});

describe("an outlet as found and as left", () => {
  const readings = (prefix: string, velocity: number) =>
    Object.fromEntries(Array.from({ length: 6 }, (_, index) => [`${prefix}${index + 1}`, velocity]));

  it("has both airflows and the change, and is judged as left", () => {
    const shown = balance(["visits"], {
      Outlets: [
        outlet("S1", "Hall", { "Design airflow": 100, ...readings("B", 60), ...readings("R", 98) }),
        outlet("S2", "Hall", { "Design airflow": 100, ...readings("B", 60) }),
      ],
    });
    expect(about(shown("Outlets", "Airflow as found"))).toEqual([60, 60]);
    expect(about(shown("Outlets", "Percent before"))).toEqual([60, 60]);
    expect(about(shown("Outlets", "Airflow"))).toEqual([98, ""]);
    expect(about(shown("Outlets", "Change in airflow"))).toEqual([38, ""]);
    expect(shown("Outlets", "Verdict")).toEqual(["within", ""]);
  });
});

describe("an area as a manufacturer publishes it", () => {
  const six = (velocity: number) => Object.fromEntries([1, 2, 3, 4, 5, 6].map((point) => [`R${point}`, velocity]));

  it("makes the airflow without a factor, with a size or without, and one cell says which area it is", () => {
    const shown = balance(["areas"], {
      Outlets: [
        // 72 in² is half of a square foot.
        outlet("E1", "Hall", { ...six(400), Factor: 0.75, "Published area": 72, "Area is": "effective area" }),
        { Outlet: "E2", Kind: "supply", ...six(400), "Published area": 72, "Area is": "free area" },
        outlet("E3", "Hall", { ...six(400), "Published area": 72 }),
        outlet("E4", "Hall", { ...six(400), "Published area": 288, "Area is": "free area" }),
        outlet("E5", "Hall", { ...six(400), Factor: 0.6 }),
        outlet("E6", "Hall", { ...six(400), Factor: null }),
      ],
    });
    expect(about(shown("Outlets", "Airflow"))).toEqual([200, 200, 200, 800, 240, 300]);
    expect(shown("Outlets", "Area from")).toEqual([
      "effective area",
      "free area",
      "which area",
      "too large",
      "factor",
      "0.75 assumed",
    ]);
    expect(shown("Outlets", "Factor source")).toEqual(["given", "given", "given", "given", "given", "assumed"]);
    expect(shown("Outlets", "Verdict")).toEqual(Array.from({ length: 6 }, () => "no design"));
  });
});

describe("the meters of a job", () => {
  const shown = (day: number | null) => {
    const plan = TEMPLATES["room-balance"]("", { blocks: ["instruments"] });
    const rows = [46_000, 46_100, null];
    const cells = rows.flatMap((due, index) => [
      [cellUnder(plan, "Instruments", "Instrument", 8 + index), `VA-${index}`] as const,
      ...(due === null ? [] : [[cellUnder(plan, "Instruments", "Calibration due", 8 + index), due] as const]),
    ]);
    const results = calculatePlan(plan, {
      Instruments: Object.fromEntries(cells),
      ...jobEntries({ Job_InstrumentDue: 46_000, ...(day === null ? {} : { Job_Date: day }) }),
    });
    const states = rows.map(
      (_, index) => results.get("Instruments")?.get(cellUnder(plan, "Instruments", "Calibration", 8 + index))?.value,
    );
    const ofJob = results.get("Job")?.get(jobCell("calibration").replace("Job!", "").replaceAll("$", ""))?.value;
    return { states, ofJob, day: results.get("Instruments")?.get("C3")?.value };
  };

  it("are judged on the day measured, the day itself included, and say which day that is", () => {
    expect(shown(46_000)).toMatchObject({
      states: ["valid", "valid", "not stated"],
      ofJob: "valid on the day measured",
    });
    expect(shown(46_050)).toMatchObject({
      states: ["expired", "valid", "not stated"],
      ofJob: "expired on the day measured",
      day: "the day measured",
    });
  });

  it("are judged today where the job has no day, and say so", () => {
    expect(shown(null)).toMatchObject({
      ofJob: expect.stringMatching(/^(?:valid|expired) today$/),
      day: "today: the sheet Job has no day measured",
    });
  });
});

describe("a block of a room balance", () => {
  it.each(Object.keys(BALANCE_BLOCKS) as BalanceBlock[])("%s takes no column of the plain sheet away", (block) => {
    const headers = (blocks: readonly BalanceBlock[]) =>
      TEMPLATES["room-balance"]("", { blocks }).sheets.flatMap(({ tables }) =>
        tables.flatMap(({ name, columns }) => columns.map((column) => `${name} ${column.name}`)),
      );
    expect(headers([block])).toEqual(expect.arrayContaining([...headers([])]));
    expect(headers([block]).length).toBeGreaterThan(headers([]).length);
  });
});
