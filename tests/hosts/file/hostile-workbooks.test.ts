import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { openWorkbook, patchWorkbook, readSheet, WorkbookFileError } from "../../../src/xlsx/index.js";
import { plainParts, zipParts } from "../../xlsx/plain-workbook.js";
import { hostileWorkbooks } from "./hostile-workbooks.js";

const LIMIT_MS = 5_000;
const LIMIT_MEGABYTES = 500;

describe("a hostile or damaged file", () => {
  it.each(hostileWorkbooks.map((one) => [one.title, one] as const))("%s is refused in words, soon", (_, hostile) => {
    const bytes = hostile.make();
    const start = process.cpuUsage();
    let refusal: unknown;
    try {
      const workbook = openWorkbook(bytes, "hostile.xlsx");
      for (const { name } of workbook.sheets) readSheet(workbook, name);
    } catch (error) {
      refusal = error;
    }
    // Processor time, which other work on the machine stretches less than the clock's.
    const { user, system } = process.cpuUsage(start);
    expect((user + system) / 1000).toBeLessThan(LIMIT_MS);
    expect(refusal).toBeInstanceOf(WorkbookFileError);
    const { code, message, advice } = refusal as WorkbookFileError;
    expect(code).toBe(hostile.code);
    expect(message).toContain(hostile.says);
    expect(message).toMatch(/^hostile\.xlsx/);
    expect(message.length).toBeLessThan(400);
    expect(advice).toMatch(/^[A-Z].*\.$/);
  });

  it("takes no more than 500 MB, whichever it is", { timeout: 120_000 }, () => {
    const folder = mkdtempSync(join(tmpdir(), "hostile-"));
    try {
      const paths = hostileWorkbooks.map(({ make }, index) => {
        const path = join(folder, `${index}.xlsx`);
        writeFileSync(path, make());
        return path;
      });
      const script = fileURLToPath(
        new URL("../../../build/tests/hosts/file/open-hostile-workbooks.js", import.meta.url),
      );
      const output = execFileSync(process.execPath, ["--expose-gc", script, ...paths], { encoding: "utf8" });
      const { messages, peakMegabytes } = JSON.parse(output) as { messages: string[]; peakMegabytes: number };
      messages.forEach((message, index) => {
        expect(message).toContain(hostileWorkbooks[index]?.says);
      });
      expect(peakMegabytes).toBeLessThan(LIMIT_MEGABYTES);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("names that could reach into every object", () => {
  const evil = "__proto__";

  it("are names like any other: of a sheet, a note's author, a defined name, a table and an attribute", () => {
    const parts = plainParts(
      "",
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" ${evil}="polluted"><sheetData><row r="1" constructor="x"><c r="A1" t="str" ${evil}="polluted"><v>${evil}</v></c></row></sheetData></worksheet>`,
    );
    const relationships = (kind: string, target: string) =>
      `<Relationship Id="${kind === "comments" ? evil : "constructor"}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${kind}" Target="${target}"/>`;
    const bytes = zipParts({
      ...parts,
      "xl/workbook.xml": (parts["xl/workbook.xml"] ?? "")
        .replace("Sheet1", evil)
        .replace("</sheets>", `</sheets><definedNames><definedName name="${evil}">1</definedName></definedNames>`),
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${relationships("comments", "../comments1.xml")}${relationships("table", "../tables/table1.xml")}</Relationships>`,
      "xl/comments1.xml": `<comments><authors><author>${evil}</author></authors><commentList><comment ref="${evil}" authorId="0"><text><t>polluted</t></text></comment></commentList></comments>`,
      "xl/tables/table1.xml": `<table displayName="${evil}" ref="A3:A4"><tableColumns><tableColumn id="1" name="${evil}"/></tableColumns></table>`,
    });
    const workbook = openWorkbook(bytes, "test.xlsx");
    const sheet = readSheet(workbook, evil);
    expect(workbook.names).toMatchObject([{ name: evil }]);
    expect(sheet.comments).toEqual([{ address: evil, author: evil, text: "polluted" }]);
    expect(sheet.tables).toMatchObject([{ name: evil, columns: [{ name: evil }] }]);
    const after = patchWorkbook(workbook, [
      { kind: "value", sheet: evil, address: "A1", value: "polluted" },
      { kind: "part", partName: `${evil}/${evil}.xml`, content: "<polluted/>", contentType: evil },
    ]);
    expect(readSheet(openWorkbook(after, "test.xlsx"), evil).cells.cellCount).toBe(1);
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
    expect(({} as Record<string, unknown>)["ref"]).toBeUndefined();
  });
});
