import { describe, expect, it } from "vitest";
import { cellFunctions } from "../../src/cells/index.js";
import { generatedFiles, staleFiles } from "../../src/tools/generate-functions.js";

describe("what is generated from the comments of the cell functions", () => {
  it("is fresh", async () => {
    expect(staleFiles(await generatedFiles()), "npm run generate, and commit what it wrote").toEqual([]);
  });

  it("names every function after its id, so that both are found by one search", () => {
    for (const { id, call } of cellFunctions) {
      const words = id.split(".").map((word) => word[0] + word.slice(1).toLowerCase());
      expect(call.name).toBe(`vane${words.join("")}`);
    }
  });

  it("tells for every argument what it means, and ends a unit in brackets with a full stop", () => {
    for (const { id, parameters } of cellFunctions) {
      for (const { name, description } of parameters) {
        expect(description, `${id} ${name}`).toMatch(/^["A-Z].{10,}\.$/);
      }
    }
  });
});
