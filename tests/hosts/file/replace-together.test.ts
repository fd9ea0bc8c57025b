import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { replaceTogether } from "../../../src/hosts/file/replace-together.js";

/* That no call may fail and no Ctrl-C come between is tried by node build/tests/hostile/faults/try-faults.js. */

describe("files that take their places together", () => {
  let folder = "";
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "together-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  const put = (name: string, content: string) => writeFileSync(join(folder, name), content);
  const filled = (name: string) => {
    put(`${name}.new`, `new ${name}`);
    return { temporary: join(folder, `${name}.new`), path: join(folder, name) };
  };
  const contents = () =>
    readdirSync(folder)
      .filter((name) => statSync(join(folder, name)).isFile())
      .sort()
      .map((name) => [name, readFileSync(join(folder, name), "utf8")]);

  it("replace what is there and what is not, and leave nothing else", () => {
    put("jobs", "old jobs");
    replaceTogether([filled("jobs"), filled("outlets")]);
    expect(contents()).toEqual([
      ["jobs", "new jobs"],
      ["outlets", "new outlets"],
    ]);
  });

  it("give back what was there when a later one is refused its place", () => {
    put("jobs", "old jobs");
    put("outlets", "old outlets");
    const files = [filled("jobs"), filled("findings"), filled("outlets")];
    rmSync(join(folder, "outlets.new"));
    expect(() => replaceTogether(files)).toThrow("outlets.new");
    expect(contents()).toEqual([
      ["jobs", "old jobs"],
      ["outlets", "old outlets"],
    ]);
  });

  it("stay as they are when one cannot be kept meanwhile", () => {
    put("jobs", "old jobs");
    // A folder has no second name, and is no file to be copied.
    mkdirSync(join(folder, "outlets"));
    const files = [filled("jobs"), filled("outlets")];
    expect(() => replaceTogether(files)).toThrow();
    expect(contents()).toEqual([
      ["jobs", "old jobs"],
      ["jobs.new", "new jobs"],
      ["outlets.new", "new outlets"],
    ]);
  });
});
