import { describe, expect, it } from "vitest";
import type { UnitSystemName } from "../../../src/core/index.js";
import {
  type InteractiveHost,
  type KnownOpening,
  readSelectedOutlet,
  TEMPLATES,
  writeJob,
} from "../../../src/workbook/index.js";
import { formatAddress } from "../../../src/xlsx/address.js";
import type { GivenWorkbook } from "../../hosts/contract.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";

/** Where the first row of each template's list stands. */
const LISTS = {
  "room-balance": { sheet: "Outlets", width: "Width or diameter", first: 9 },
  "face-sweep": { sheet: "Face sweep", width: "Width or diameter", first: 9 },
  "before-after": { sheet: "Before and after", width: "Width or diameter", first: 7 },
  "job-summary": { sheet: "Job summary", width: "Width", first: 10 },
} as const;

type Layout = keyof typeof LISTS;

const LAYOUTS = Object.keys(LISTS) as Layout[];

type Cells = Readonly<Record<string, number | string>>;

/** A template's workbook with cells of a row filled, by their headers, and a cell of that row selected. */
async function selectedRow(layout: Layout, row: number, cells: Cells): Promise<InteractiveHost> {
  const host = pageHostOver(givenPlan(TEMPLATES[layout]("")));
  const { sheet, first } = LISTS[layout];
  const [head] = await host.read([{ sheet, range: `A${first - 1}:AM${first - 1}` }]);
  const headers = head?.values[0] ?? [];
  const edits = Object.entries(cells).map(([header, content]) => {
    const column = headers.indexOf(header) + 1;
    if (column === 0) throw new Error(`“${sheet}” has no column ${header}.`);
    return { address: { sheet, range: formatAddress(row, column) }, cells: [[content]] };
  });
  await host.write(edits);
  await host.select({ sheet, range: `C${row}` });
  return host;
}

async function openingOf(host: InteractiveHost, units: UnitSystemName): Promise<KnownOpening | null> {
  return (await readSelectedOutlet(host, units))?.opening ?? null;
}

describe.each(LAYOUTS)("the opening of a selected row of the template %s", (layout) => {
  const { width, first, sheet } = LISTS[layout];
  const row = first + 3;

  it("is its tag, its size and its factor", async () => {
    const host = await selectedRow(layout, row, { Outlet: "S2", [width]: 14, Height: 6, Factor: 0.8 });
    expect(await openingOf(host, "ip")).toEqual({
      sheet,
      row,
      name: "S2",
      units: "ip",
      shape: "rectangular",
      width: 14,
      height: 6,
      factor: 0.8,
      effectiveArea: null,
      factorIs: "given",
      findings: [],
    });
  });

  it("is round where only the first dimension is given, in the units of the job", async () => {
    const host = await selectedRow(layout, row, { Outlet: "S2", [width]: 250 });
    await writeJob(host, { units: "si" });
    const opening = await openingOf(host, "si");
    expect(opening).toMatchObject({
      units: "si",
      shape: "round",
      width: 250,
      height: null,
      factor: null,
      effectiveArea: null,
      findings: [],
    });
  });

  it("keeps what is missing missing, and is none in a row that says nothing", async () => {
    const half = await selectedRow(layout, row, { Outlet: "S2", Height: 6 });
    expect(await openingOf(half, "ip")).toMatchObject({ width: null, height: 6, factor: null, factorIs: null });
    const zero = await selectedRow(layout, row, { Outlet: "S2", [width]: 0, Height: 0, Factor: 0 });
    expect(await openingOf(zero, "ip")).toBeNull();
    expect(await openingOf(await selectedRow(layout, row, { Outlet: "S2" }), "ip")).toBeNull();
  });

  it("takes no size from a cell in error or in words, and names that cell", async () => {
    const inError = await selectedRow(layout, row, { Outlet: "S2", [width]: 14, Height: "=1/0", Factor: 0.8 });
    const opening = await openingOf(inError, "ip");
    expect(opening).toMatchObject({ shape: null, width: null, height: null, factor: 0.8 });
    expect(opening?.findings).toEqual([
      expect.stringMatching(new RegExp(`^${sheet}![A-Z]+${row}: Height shows #DIV/0!`)),
    ]);
    const inWords = await selectedRow(layout, row, { Outlet: "S2", [width]: 14, Height: 6, Factor: "wide" });
    expect(await openingOf(inWords, "ip")).toMatchObject({
      shape: "rectangular",
      factor: null,
      effectiveArea: null,
      factorIs: null,
      findings: [expect.stringContaining("“wide” is not a number")],
    });
  });

  it("is none at the headers, below the list and on another sheet", async () => {
    const host = await selectedRow(layout, row, { Outlet: "S2", [width]: 14, Height: 6 });
    for (const outside of [
      { sheet, range: `C${first - 1}` },
      { sheet, range: "C110" },
      { sheet: "Job", range: `C${row}` },
    ]) {
      await host.select(outside);
      expect(await openingOf(host, "ip"), outside.range).toBeNull();
    }
    await host.select({ sheet, range: `A${row}:D${row + 2}` });
    expect(await openingOf(host, "ip")).toMatchObject({ row, width: 14 });
    expect(await openingOf({ ...host, selection: async () => null }, "ip")).toBeNull();
  });
});

describe("a factor that nobody published", () => {
  it.each(["room-balance", "face-sweep", "before-after"] as const)(
    "is assumed where the sheet says so of its empty cell: %s",
    async (layout) => {
      const host = await selectedRow(layout, LISTS[layout].first, { Outlet: "S2", "Width or diameter": 14, Height: 6 });
      expect(await openingOf(host, "ip")).toMatchObject({ factor: null, factorIs: "assumed" });
    },
  );

  it("is what the job summary says of it", async () => {
    const cells = { Outlet: "S2", Width: 14, Height: 6, Factor: 0.75, "Factor assumed": "yes" };
    const assumed = await openingOf(await selectedRow("job-summary", 12, cells), "ip");
    expect(assumed).toMatchObject({ factor: 0.75, factorIs: "assumed" });
    const broken = await openingOf(
      await selectedRow("job-summary", 12, { ...cells, Factor: "=NA()", "Factor assumed": "yes" }),
      "ip",
    );
    expect(broken).toMatchObject({
      width: 14,
      factor: null,
      effectiveArea: null,
      factorIs: null,
      findings: [expect.stringContaining("#N/A")],
    });
    const { Factor: _, "Factor assumed": __, ...unsaid } = cells;
    expect(await openingOf(await selectedRow("job-summary", 12, unsaid), "ip")).toMatchObject({
      factor: null,
      effectiveArea: null,
      factorIs: null,
    });
  });
});

describe("the units of a row", () => {
  it("are those that the row of a job summary names", async () => {
    const host = await selectedRow("job-summary", 12, { Outlet: "S2", Width: 350, Height: 150 });
    await writeJob(host, { units: "si" });
    expect(await openingOf(host, "ip")).toMatchObject({ units: "si", width: 350 });
  });

  const ownList = (width: string): GivenWorkbook => ({
    sheets: [
      {
        name: "Mine",
        cells: { B3: "Outlet", C3: width, D3: "Height", E3: "Design, L/s", F3: "Airflow", B4: "S-1", C4: 350, D4: 150 },
      },
    ],
    names: {},
  });

  it.each([
    ["Width, mm", "ip", "si"],
    ["Width (in)", "si", "ip"],
    ["Width", "si", "si"],
    ["Width (inside)", "si", "si"],
  ] as const)("of a list of one's own are those of the header “%s” in a job in %s: %s", async (header, job, units) => {
    const host = pageHostOver(ownList(header));
    await host.select({ sheet: "Mine", range: "F4" });
    expect(await openingOf(host, job)).toMatchObject({ row: 4, name: "S-1", units, width: 350, height: 150 });
  });
});

describe.each(LAYOUTS)("the selected row of the template %s", (layout) => {
  const { width, first, sheet } = LISTS[layout];
  const row = first + 3;
  const selected = async (cells: Cells) => readSelectedOutlet(await selectedRow(layout, row, cells), "ip");

  it("is known by its tag, or by its row where it has none", async () => {
    expect(await selected({ Outlet: "S2" })).toMatchObject({ id: `${sheet}!S2`, label: "S2" });
    expect(await selected({ [width]: 14 })).toMatchObject({ id: `${sheet}!${row}`, label: `Row ${row}` });
  });

  it("stays the same outlet where its row is sorted to another place", async () => {
    const host = await selectedRow(layout, row, { Outlet: "S2" });
    const before = await readSelectedOutlet(host, "ip");
    const [head] = await host.read([{ sheet, range: `A${first - 1}:H${first - 1}` }]);
    const column = (head?.values[0] ?? []).indexOf("Outlet") + 1;
    const cell = (at: number) => ({ sheet, range: formatAddress(at, column) });
    await host.write([
      { address: cell(row), cells: [["S3"]] },
      { address: cell(row + 1), cells: [["S2"]] },
    ]);
    expect((await readSelectedOutlet(host, "ip"))?.id).not.toBe(before?.id);
    await host.select(cell(row + 1));
    expect((await readSelectedOutlet(host, "ip"))?.id).toBe(before?.id);
  });

  it("is measured at a grille or register, unless all of its area is free", async () => {
    expect(await selected({ Outlet: "S2", [width]: 14 })).toMatchObject({ measured: "face" });
    expect(await selected({ Outlet: "S2", [width]: 14, Factor: 0.8 })).toMatchObject({ measured: "face" });
    expect(await selected({ Outlet: "S2", [width]: 14, Factor: 1 })).toMatchObject({ measured: null });
  });
});

describe("the selected sheet of a traverse", () => {
  it("is measured in a duct", async () => {
    const host = pageHostOver(givenPlan(TEMPLATES["duct-traverse"]("")));
    await host.select({ sheet: "Duct traverse", range: "C20" });
    expect(await readSelectedOutlet(host, "ip")).toMatchObject({
      id: "Duct traverse",
      measured: "duct",
      opening: null,
    });
  });
});
