import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8 } from "fflate";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FUNCTION_SPELLINGS } from "../../src/cells/index.js";
import { fileSource, jobPlaces } from "../../src/workbook/index.js";
import {
  callsFunction,
  cellAt,
  formulaCellsOf,
  openWorkbook,
  patchWorkbook,
  readSheet,
  type WorkbookEdit,
} from "../../src/xlsx/index.js";
import { readPart } from "../../src/xlsx/package/read-part.js";
import { hostileWorkbooks } from "../hosts/file/hostile-workbooks.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";
import { typedIn } from "./vanesheet.js";

let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "commands-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: readonly string[]) => typedIn(folder, args);
const put = (name: string, bytes: Uint8Array) => writeFileSync(join(folder, name), bytes);
const opened = (name: string) => openWorkbook(readFileSync(join(folder, name)), name);
const storedValue = (name: string, sheet: string, address: string) =>
  cellAt(readSheet(opened(name), sheet), address)?.value;

/** What the cell of the job holds that every formula asks for its units. */
function storedUnits(name: string) {
  const place = jobPlaces(fileSource(opened(name)).names).get("units");
  return place && storedValue(name, place.sheet, place.range);
}

/** One outlet measured, one with text among its readings, and a formula that nothing here calculates. */
const ROOMS = plainWorkbook(
  `<row r="1"><c r="A1"><v>14</v></c><c r="B1"><v>6</v></c><c r="C1"><v>400</v></c><c r="D1"><v>420</v></c>
  <c r="E1"><f>_xldudf_VANE_AIRFLOW_FACE(A1,B1,C1:D1,0.75,COUNT(C1:D1))</f><v>1</v></c></row>
  <row r="2"><c r="A2"><v>14</v></c><c r="B2"><v>6</v></c><c r="C2" t="str"><v>shut</v></c>
  <c r="E2"><f>VANE.AIRFLOW.FACE(A2,B2,C2:D2,0.75,COUNT(C2:D2))</f><v>1</v></c></row>
  <row r="3"><c r="E3"><f>NOT.THERE(E1)</f><v>7</v></c><c r="F3"><f>E1*2</f><v>2</v></c></row>`,
);
/** 14 in × 6 in, 0.75 of it free, at a mean of 410 fpm. */
const AIRFLOW = (14 * 6 * 0.75 * 410) / 144;

describe("vanesheet calc", () => {
  it("brings results up to date in place, and says what it kept and what is in error", async () => {
    put("rooms.xlsx", ROOMS);
    const { status, out, err } = await run("calc", "rooms.xlsx");
    expect({ status, err }).toEqual({ status: 1, err: "" });
    expect(out).toContain("rooms.xlsx: 3 formulas calculated, 3 results changed. Saved in place.");
    expect(out).toMatch(
      /Not calculated here, 1; their old result is taken out[^\n]*\n {2}Sheet1!E3 {2}it calls NOT.THERE, which is not known here/,
    );
    expect(out).toMatch(/Errors, 1:\n {2}Sheet1!E2 {2}#VALUE! .*text/i);
    expect(storedValue("rooms.xlsx", "Sheet1", "E1")).toBeCloseTo(AIRFLOW, 9);
    expect(storedValue("rooms.xlsx", "Sheet1", "F3")).toBeCloseTo(2 * AIRFLOW, 9);
    expect(storedValue("rooms.xlsx", "Sheet1", "E2")).toEqual({ error: "#VALUE!" });
    expect(storedValue("rooms.xlsx", "Sheet1", "E3")).toBeNull();
    expect(readdirSync(folder)).toEqual(["rooms.xlsx"]);
  });

  it("spells what another program stored as typed as Excel stores it, unless told not to", async () => {
    put("rooms.xlsx", ROOMS);
    const formulas = (name: string) => {
      return [...formulaCellsOf(readSheet(opened(name), "Sheet1"))].map(({ formula }) => formula.text);
    };
    const asGiven = formulas("rooms.xlsx");
    expect((await run("calc", "rooms.xlsx", "-o", "kept.xlsx", "--keep-spelling")).out).not.toContain("spelled");
    expect(formulas("kept.xlsx")).toEqual(asGiven);
    expect((await run("check", "rooms.xlsx")).out).toMatch(/E2[\s\S]*stored as it was typed[\s\S]*vanesheet calc/);
    expect((await run("calc", "rooms.xlsx")).out).toContain("1 formula spelled as Excel stores them");
    expect(formulas("rooms.xlsx")[1]).toBe("_xldudf_VANE_AIRFLOW_FACE(A2,B2,C2:D2,0.75,COUNT(C2:D2))");
    expect((await run("check", "rooms.xlsx")).out).not.toContain("stored as it was typed");
    expect((await run("calc", "rooms.xlsx")).out).not.toContain("spelled");
  });

  it("leaves a file alone whose results are up to date", async () => {
    put("rooms.xlsx", ROOMS);
    await run("calc", "rooms.xlsx");
    const before = readFileSync(join(folder, "rooms.xlsx"));
    expect((await run("calc", "rooms.xlsx")).out).toContain(
      "0 results changed. The file was up to date and stays as it was.",
    );
    expect(readFileSync(join(folder, "rooms.xlsx"))).toEqual(before);
  });

  it("saves under another name and leaves the file alone", async () => {
    put("rooms.xlsx", ROOMS);
    expect((await run("calc", "rooms.xlsx", "-o", "done.xlsx")).out).toContain("Saved as done.xlsx.");
    expect(storedValue("done.xlsx", "Sheet1", "E1")).toBeCloseTo(AIRFLOW, 9);
    expect(readFileSync(join(folder, "rooms.xlsx"))).toEqual(Buffer.from(ROOMS));
    const again = await run("calc", "rooms.xlsx", "-o", "done.xlsx");
    expect(again).toMatchObject({ status: 1, out: "" });
    expect(again.err).toBe("vanesheet calc: done.xlsx: is there already. Choose another name, or add --replace.");
    expect((await run("calc", "rooms.xlsx", "-o", "done.xlsx", "--replace")).out).toContain("Saved as done.xlsx.");
  });

  it("only says what would change when asked to", async () => {
    put("rooms.xlsx", ROOMS);
    expect((await run("calc", "rooms.xlsx", "--dry-run")).out).toContain(
      "3 results would change. Nothing was written.",
    );
    expect(readFileSync(join(folder, "rooms.xlsx"))).toEqual(Buffer.from(ROOMS));
  });

  it("gives the same as data", async () => {
    put("rooms.xlsx", ROOMS);
    const data: unknown = JSON.parse((await run("calc", "rooms.xlsx", "--dry-run", "--json")).out);
    expect(data).toMatchObject({
      file: "rooms.xlsx",
      saved: null,
      calculated: 3,
      changed: [{ address: "E1" }, { address: "E2", value: { error: "#VALUE!" } }, { address: "F3" }],
      kept: [{ sheet: "Sheet1", address: "E3" }],
      errors: [{ address: "E2", message: expect.stringContaining("row 1") }],
    });
  });
});

describe("a file that cannot be used", () => {
  const disguised = (code: string) => {
    const found = hostileWorkbooks.find((one) => one.code === code);
    if (found === undefined) throw new Error(`There is no file that is ${code}.`);
    return found.make();
  };

  it.each([
    ["is not there", () => undefined, "is not there. Check the name and the folder."],
    ["is a folder", () => mkdirSync(join(folder, "rooms.xlsx")), "is a folder. Name a workbook file."],
    ["is encrypted", () => put("rooms.xlsx", disguised("encrypted")), "is protected by a password."],
    ["is an old .xls", () => put("rooms.xlsx", disguised("old-format")), "is an old .xls workbook."],
    ["is a .csv in disguise", () => put("rooms.xlsx", disguised("plain-text")), "is plain text (such as .csv)"],
    [
      "is open elsewhere",
      () => {
        put("rooms.xlsx", ROOMS);
        put("~$rooms.xlsx", new Uint8Array());
      },
      "looks open in another program.",
    ],
    [
      "is write-protected",
      () => {
        put("rooms.xlsx", ROOMS);
        chmodSync(join(folder, "rooms.xlsx"), 0o444);
      },
      "is write-protected.",
    ],
  ])("%s: the message names it, and nothing is written", async (_title, prepare, says) => {
    prepare();
    const before = readdirSync(folder);
    const { status, out, err } = await run("calc", "rooms.xlsx");
    expect({ status, out }).toEqual({ status: 1, out: "" });
    expect(err).toMatch(/^vanesheet calc: .*rooms\.xlsx: /);
    expect(err).toContain(says);
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe("vanesheet new", () => {
  it("lists the templates", async () => {
    const { status, out } = await run("new");
    expect(status).toBe(0);
    for (const id of ["room-balance", "duct-traverse", "face-sweep", "before-after", "job-summary"]) {
      expect(out).toMatch(new RegExp(`^${id} +\\w+`, "m"));
    }
  });

  it("starts a workbook and never writes over one", async () => {
    expect(await run("new", "duct-traverse", "trunk.xlsx")).toMatchObject({ status: 0, err: "" });
    expect(opened("trunk.xlsx").sheets.map(({ name }) => name)).toContain("Duct traverse");
    expect(storedUnits("trunk.xlsx")).toBe("ip");
    const before = readFileSync(join(folder, "trunk.xlsx"));
    const again = await run("new", "room-balance", "trunk.xlsx");
    expect(again.status).toBe(1);
    expect(again.err).toContain("trunk.xlsx: is there already. Choose another name.");
    expect(readFileSync(join(folder, "trunk.xlsx"))).toEqual(before);
  });

  it("keeps the choice of units in the one cell that every formula reads", async () => {
    const { out } = await run("new", "room-balance", "si.xlsx", "--units", "si");
    expect(out).toContain("L/s");
    expect(storedUnits("si.xlsx")).toBe("si");
    expect((await run("calc", "si.xlsx")).out).toContain("0 results changed");
  });

  it.each([
    [["--units", "si"], "9"],
    [["--paper", "a4"], "9"],
    [["--units", "si", "--paper", "letter"], "1"],
    [[], "1"],
  ])("with %j has every sheet printed on paper %s", async (options, number) => {
    expect(await run("new", "room-balance", "job.xlsx", ...options)).toMatchObject({ status: 0, err: "" });
    const { archive, sheets } = opened("job.xlsx");
    const papers = sheets.map(({ name }) => {
      const sheet = strFromU8(readPart(archive, readSheet(opened("job.xlsx"), name).partName));
      return /<pageSetup [^>]*paperSize="(\d+)"/.exec(sheet)?.[1];
    });
    expect(papers.length).toBeGreaterThan(4);
    expect(new Set(papers)).toEqual(new Set([number]));
  });

  it.each(["room-balance", "duct-traverse", "face-sweep", "before-after", "job-summary"])(
    "starts %s in plain formulas, with the sheets it has anyway and no call of ours",
    async (template) => {
      await run("new", template, "ours.xlsx");
      expect(await run("new", template, "plain.xlsx", "--plain")).toMatchObject({ status: 0, err: "" });
      const [ours, plain] = [opened("ours.xlsx"), opened("plain.xlsx")];
      expect(plain.sheets.map(({ name }) => name)).toEqual(ours.sheets.map(({ name }) => name));
      const formulas = plain.sheets.flatMap(({ name }) => [...formulaCellsOf(readSheet(plain, name))]);
      expect(formulas.length).toBeGreaterThan(10);
      expect(formulas.filter(({ formula }) => callsFunction(formula.text, FUNCTION_SPELLINGS))).toEqual([]);
    },
  );

  it("has rows for the outlets, rooms and systems of the job, all calculated and summed", async () => {
    const { out } = await run("new", "room-balance", "job.xlsx", "--outlets", "120", "--rooms", "40", "--systems", "4");
    expect(out).toContain("Rows for 120 outlets, 40 rooms, 4 systems.");
    const job = opened("job.xlsx");
    const tables = job.sheets.flatMap(({ name }) => readSheet(job, name).tables);
    const rows = Object.fromEntries(tables.map(({ name, range }) => [name, range.lastRow - range.firstRow]));
    expect(rows).toMatchObject({ Outlets: 120, Rooms: 40, Systems: 4, Retest: 24 });
    const cells = job.sheets.flatMap(({ name }) => [...formulaCellsOf(readSheet(job, name))]);
    expect(cells.filter(({ value }) => value === null || typeof value === "object")).toEqual([]);
    const last = tables.find(({ name }) => name === "Outlets")?.range.lastRow;
    expect(cells.filter(({ formula }) => formula.text.includes(`$${last}`)).length).toBeGreaterThan(200);
    expect((await run("calc", "job.xlsx")).out).toContain("0 results changed");
    expect((await run("check", "job.xlsx")).out).toContain("nothing found");
  });

  it("has readings and blocks as asked, in plain formulas too, with nothing to find in it", async () => {
    const { out } = await run("new", "room-balance", "job.xlsx", "--points=9", "--with=all", "--plain");
    expect(out).toMatch(/9 readings for each outlet\. With shares, seasons, areas, instruments, visits, report\./);
    const sheets = opened("job.xlsx").sheets.map(({ name }) => name);
    expect(sheets).toEqual(expect.arrayContaining(["Report", "Instruments", "Remarks"]));
    expect((await run("check", "job.xlsx")).out).toContain("nothing found");
    const unknown = await run("new", "room-balance", "other.xlsx", "--with=shares,sauna");
    expect(unknown.err).toMatch(/--with takes shares, seasons.* or all, not “sauna”/);
    expect((await run("new", "duct-traverse", "other.xlsx", "--points=9")).err).toMatch(/no columns of readings/);
  });

  it("has fewer rows where a job is small, and refuses sizes that a template cannot have", async () => {
    await run("new", "face-sweep", "small.xlsx", "--outlets", "3");
    const small = opened("small.xlsx");
    const [table] = small.sheets.flatMap(({ name }) => readSheet(small, name).tables);
    expect((table?.range.lastRow ?? 0) - (table?.range.firstRow ?? 0)).toBe(3);
    const refusals: readonly (readonly [string, string, RegExp])[] = [
      [
        "duct-traverse",
        "--outlets=5",
        /duct-traverse has no list of outlets; --outlets goes with room-balance, face-sweep/,
      ],
      ["face-sweep", "--rooms=5", /has no list of rooms; --rooms goes with room-balance/],
      ["room-balance", "--outlets=0", /--outlets takes a whole number from 1 to 5000, not “0”/],
      ["room-balance", "--rooms=many", /--rooms takes a whole number from 1 to 5000, not “many”/],
      ["room-balance", "--outlets=1e3", /--outlets takes a whole number/],
    ];
    for (const [template, option, words] of refusals) {
      const { status, err } = await run("new", template, "job.xlsx", option);
      expect({ status, names: readdirSync(folder) }).toEqual({ status: 2, names: ["small.xlsx"] });
      expect(err).toMatch(words);
    }
  });

  it("refuses a paper that nobody prints on", async () => {
    const { status, err } = await run("new", "room-balance", "job.xlsx", "--paper", "a7");
    expect({ status, names: readdirSync(folder) }).toEqual({ status: 2, names: [] });
    expect(err).toContain("--paper takes letter or a4, not “a7”.");
  });
});

describe("vanesheet handoff", () => {
  it("replaces every VANE formula, says by what, and leaves the file alone", async () => {
    await run("new", "duct-traverse", "trunk.xlsx");
    const edits: readonly WorkbookEdit[] = ["D25", "D26", "D27"].map((address, index) => {
      return { kind: "value", sheet: "Duct traverse", address, value: 600 + 30 * index };
    });
    put("trunk.xlsx", patchWorkbook(opened("trunk.xlsx"), edits));
    const before = readFileSync(join(folder, "trunk.xlsx"));
    const { status, out } = await run("handoff", "trunk.xlsx", "-o", "copy.xlsx");
    expect(out).toMatch(/Replaced by plain formulas, \d+ cells:\n {2}VANE\./);
    expect(out).toMatch(/Replaced by their value, \d+ cells;.*\n {2}'Duct traverse'!N5:N6 {2}VANE\.TRAVERSE\.POINTS/);
    const copy = opened("copy.xlsx");
    const formulas = copy.sheets.flatMap(({ name }) => [...formulaCellsOf(readSheet(copy, name))]);
    expect(formulas.length).toBeGreaterThan(100);
    expect(formulas.filter(({ formula }) => /VANE[._]/.test(formula.text.replace(/"[^"]*"/g, "")))).toEqual([]);
    expect(copy.sheets.at(-1)?.name).toBe("Hand-off note");
    expect(readFileSync(join(folder, "trunk.xlsx"))).toEqual(before);
    expect(status === 1).toBe(out.includes("Errors, "));
  });

  it("makes a plain copy where there is nothing to replace", async () => {
    const plain = plainWorkbook('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1+1</f><v>2</v></c></row>');
    put("plain.xlsx", plain);
    expect((await run("handoff", "plain.xlsx", "-o", "copy.xlsx")).out).toContain("nothing to replace");
    expect(readFileSync(join(folder, "copy.xlsx"))).toEqual(Buffer.from(plain));
  });
});

describe("a file command typed wrongly", () => {
  it.each([
    [["calc"], "FILE is missing"],
    [["calc", "a.xlsx", "b.xlsx"], "One FILE is taken"],
    [["calc", "rooms.xlsx", "-o", "rooms.xlsx"], "is the file that is read. Leave -o out"],
    [["calc", "rooms.xlsx", "-o", "done.xls"], "“done.xls” has to end in .xlsx"],
    [["calc", "rooms.xlsx", "-o", "done.xlsx", "--dry-run"], "takes no -o"],
    [["calc", "rooms.xlsx", "--replace"], "--replace goes with -o"],
    [["handoff", "rooms.xlsx"], "-o OUT is missing"],
    [["handoff", "rooms.xlsx", "-o", "rooms.xlsx", "--replace"], "give it another name"],
    [["new", "room-ballance", "a.xlsx"], "There is no template “room-ballance”, only room-balance,"],
    [["new", "room-balance"], "FILE is missing"],
    [["new", "room-balance", "a.xlsx", "b.xlsx"], "One FILE is taken"],
    [["new", "room-balance", "a"], "“a” has to end in .xlsx"],
    [["new", "room-balance", "a.xlsx", "--units", "metric"], "--units takes ip"],
  ])("%j says what is wrong, ends with 2 and writes nothing", async (args, part) => {
    put("rooms.xlsx", ROOMS);
    const { status, err } = await run(...args);
    expect(status).toBe(2);
    expect(err).toContain(part);
    expect(err).toContain("--help");
    expect(readdirSync(folder)).toEqual(["rooms.xlsx"]);
    expect(readFileSync(join(folder, "rooms.xlsx"))).toEqual(Buffer.from(ROOMS));
  });
});
