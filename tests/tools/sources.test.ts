import { describe, expect, it } from "vitest";
import { SOURCE_DOCUMENTS } from "../../shared/tables/documents.js";
import { citationsIn, documentsOf, saysNoDocument } from "../../src/tools/sources/cited.js";
import { repository } from "../core/core-functions.js";

const citations = citationsIn(repository);

describe("the sources", () => {
  it("stand beside formulas, tables and cases", () => {
    for (const kind of ["formula", "table", "case"] as const) {
      expect(citations.filter((one) => one.kind === kind).length, kind).toBeGreaterThan(5);
    }
    expect(citations.filter(({ text }) => text === "")).toEqual([]);
  });

  it("of a formula or a table name a listed document, or say in words that there is none", () => {
    const unclear = citations.filter(
      ({ kind, text }) => kind !== "case" && documentsOf(text).length === 0 && !saysNoDocument(text),
    );
    expect(unclear).toEqual([]);
  });

  it("list no document that nothing rests on", () => {
    const idle = SOURCE_DOCUMENTS.filter(
      (document) => !citations.some(({ text }) => documentsOf(text).includes(document)),
    );
    expect(idle.map(({ title }) => title)).toEqual([]);
  });
});
