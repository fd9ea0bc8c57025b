import { strFromU8, unzipSync } from "fflate";
import { SaxesParser } from "saxes";
import { describe, expect, it } from "vitest";
import { isStale, templateFiles } from "../../src/tools/build-templates.js";
import { calculatePlan } from "../../src/tools/templates/calculate-plan.js";
import { ADDIN_ID, TEMPLATES } from "../../src/workbook/index.js";
import { writeTemplate } from "../../src/workbook/plan-file/index.js";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { cellUnder } from "../support/plan-places.js";

const files = await templateFiles();

function partsOf(bytes: Uint8Array): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, data]) => [name, strFromU8(data)]));
}

/** Elements of a worksheet in the order that the format asks for. @source ECMA-376-1:2016, 18.3.1.99 */
const WORKSHEET_ORDER = [
  "sheetPr",
  "dimension",
  "sheetViews",
  "sheetFormatPr",
  "cols",
  "sheetData",
  "sheetProtection",
  "autoFilter",
  "mergeCells",
  "conditionalFormatting",
  "dataValidations",
  "printOptions",
  "pageMargins",
  "pageSetup",
  "headerFooter",
  "rowBreaks",
  "colBreaks",
  "drawing",
  "tableParts",
];

interface Element {
  readonly name: string;
  readonly depth: number;
}

function elementsOf(xml: string): readonly Element[] {
  const elements: Element[] = [];
  const parser = new SaxesParser({ xmlns: true });
  let depth = 0;
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name }) => {
    depth += 1;
    elements.push({ name, depth });
  });
  parser.on("closetag", () => {
    depth -= 1;
  });
  parser.write(xml).close();
  return elements;
}

describe("the committed templates", () => {
  it("are what the plans give today, byte for byte", () => {
    const stale = [...files].filter(([path, bytes]) => isStale(path, bytes)).map(([path]) => path);
    expect(stale, "run `npm run templates` and commit the result").toEqual([]);
  });

  it("come out the same twice", async () => {
    const again = await templateFiles();
    for (const [path, bytes] of files) expect(Buffer.from(again.get(path) ?? []).equals(bytes), path).toBe(true);
  });
});

describe.each([...files])("%s", (path, bytes) => {
  const parts = partsOf(bytes);
  const workbook = openWorkbook(bytes, path);

  it("holds well-formed XML in the order of the format", () => {
    for (const [name, text] of Object.entries(parts)) {
      const elements = elementsOf(text);
      expect(elements.length, name).toBeGreaterThan(0);
      if (!name.startsWith("xl/worksheets/sheet")) continue;
      const order = elements.filter(({ depth }) => depth === 2).map((element) => WORKSHEET_ORDER.indexOf(element.name));
      expect(order, name).not.toContain(-1);
      expect(order, name).toEqual([...order].sort((a, b) => a - b));
    }
  });

  it("declares every part and finds every part that it refers to", () => {
    const types = parts["[Content_Types].xml"] ?? "";
    for (const name of Object.keys(parts)) {
      if (name === "[Content_Types].xml" || name.endsWith(".rels")) continue;
      expect(types, name).toContain(`PartName="/${name}"`);
    }
    for (const declared of types.matchAll(/PartName="\/([^"]+)"/g)) expect(parts).toHaveProperty([declared[1] ?? ""]);
    for (const { kind, target } of workbook.relationships) expect(parts, kind).toHaveProperty([target]);
  });

  it("opens without a recalculation that would lose its values where the add-in is missing", () => {
    const text = parts["xl/workbook.xml"] ?? "";
    expect(text).not.toContain("fullCalcOnLoad");
    expect(text).toContain('<calcPr calcId="191029"/>');
  });

  it("stores every call under its stored name, beside its calculated value", () => {
    const sheets = Object.entries(parts).filter(([name]) => /^xl\/(worksheets\/sheet|tables\/table)/.test(name));
    const formulas = sheets.flatMap(([, text]) => [
      ...text.matchAll(/<f[ >][^<]*<\/f>|<calculatedColumnFormula>[^<]*</g),
    ]);
    const written = formulas.map(([formula]) => formula);
    expect(written.filter((formula) => formula.includes("VANE."))).toEqual([]);
    if (!path.includes("before-after")) expect(written.some((formula) => formula.includes("_xldudf_VANE_"))).toBe(true);
    for (const [name, text] of sheets) {
      const withoutValue = [...text.matchAll(/<c [^>]*><f[^>]*>[^<]*<\/f><\/c>/g)];
      expect(withoutValue, name).toEqual([]);
    }
  });

  it("protects every sheet without a password and names the add-in", () => {
    for (const { name, partName } of workbook.sheets) {
      expect(readSheet(workbook, name).isProtected, name).toBe(true);
      expect(parts[partName]).not.toMatch(/<sheetProtection[^>]*(password|hashValue)/);
    }
    expect(parts["xl/webextensions/webextension1.xml"]).toContain(`id="${ADDIN_ID}"`);
  });

  it("quotes a sheet's name wherever a name of the workbook refers to it", () => {
    for (const { name, refersTo } of workbook.names) {
      const sheet = refersTo.slice(0, refersTo.lastIndexOf("!", refersTo.indexOf("$")));
      if (sheet.includes(" ")) expect(sheet, name).toMatch(/^'.*'$/);
    }
  });
});

describe("a template with an error in it", () => {
  it("stores the error as an error, and not as a text that looks like one", async () => {
    const plan = TEMPLATES["job-summary"]("");
    const cell = (header: string) => cellUnder(plan, "JobSummary", header, 10);
    const entries = {
      "Job summary": { [cell("Outlet")]: "S-1", [cell("Design airflow")]: "text", [cell("Measured after")]: 100 },
    };
    const workbook = openWorkbook(await writeTemplate(plan, entries, calculatePlan), "wrong.xlsx");
    expect(cellAt(readSheet(workbook, "Job summary"), cell("Percent of design"))?.value).toEqual({ error: "#VALUE!" });
  });
});
