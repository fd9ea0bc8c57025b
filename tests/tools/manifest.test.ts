import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cellFunctions, NAMESPACE } from "../../src/cells/index.js";
import { addinAddress, DEVELOPMENT_ADDRESS } from "../../src/tools/addin/addin-address.js";
import { manifestIssues } from "../../src/tools/addin/manifest-issues.js";
import { repository } from "../core/core-functions.js";

const manifest = readFileSync(join(repository, "manifest/manifest.xml"), "utf8");
const { version } = JSON.parse(readFileSync(join(repository, "package.json"), "utf8")) as { version: string };

/** Where a served path comes from; the two scripts are made by the build. */
const SOURCES: Readonly<Record<string, string>> = {
  "pane.html": "src/pane/pane.html",
  "help.html": "src/pane/help.html",
  "functions.json": "src/cells/functions.json",
  "functions.js": "src/hosts/excel/functions.ts",
};

function file(path: string): Uint8Array | null {
  const source = join(repository, SOURCES[path] ?? join("manifest", path));
  return existsSync(source) ? readFileSync(source) : null;
}

const issues = (xml: string) =>
  manifestIssues(xml, { version, address: DEVELOPMENT_ADDRESS, namespace: NAMESPACE, file });

describe("the add-in's manifest", () => {
  it("is in order", () => {
    expect(issues(manifest)).toEqual([]);
  });

  it("is in order for any other address too", () => {
    const address = "https://apps.example.com/vanesheet";
    const moved = manifest.replaceAll(DEVELOPMENT_ADDRESS, address);
    expect(manifestIssues(moved, { version, address, namespace: NAMESPACE, file })).toEqual([]);
  });

  it.each([
    ["another id", "0b4b2877", "1b4b2877", "the id is"],
    ["another version", `<Version>${version}.0`, "<Version>9.9.9.0", "the version is 9.9.9.0"],
    ["an element left open", "</Requirements>", "", "not well-formed"],
    [
      "a plain http address",
      'https://localhost:3000/functions.js"',
      'http://localhost:3000/functions.js"',
      "not https",
    ],
    ["another host", "https://localhost:3000/help.html", "https://example.com/help.html", "does not lie below"],
    ["a file that is not served", "/functions.json", "/function.json", "no file is served"],
    ["an undefined resource", 'resid="Group.Label"', 'resid="Group.Name"', "Group.Name is not defined"],
    ["an unused resource", 'resid="OpenPane.Tooltip"', 'resid="OpenPane.Label"', "OpenPane.Tooltip is not used"],
    ["an icon of the wrong size", "icons/icon-80.png", "icons/icon-64.png", "64 x 64, not 80"],
    ["a missing icon size", /<bt:Image size="16".*/, "", "lacks its 16 px icon"],
    ["an older shared runtime", 'Name="SharedRuntime" MinVersion="1.1"', 'Name="SharedRuntime"', "SharedRuntime 1.1"],
    ["another namespace", 'DefaultValue="VANE"', 'DefaultValue="AIR"', "namespace is not VANE"],
    ["another tab", 'id="TabHome"', 'id="TabData"', "not on the Home tab"],
  ])("is refused with %s", (_what, found, planted, message) => {
    const broken = manifest.replace(found, planted);
    expect(broken).not.toBe(manifest);
    expect(issues(broken).join("\n")).toContain(message);
  });
});

describe("the registration that Excel reads", () => {
  const registration = JSON.parse(readFileSync(join(repository, "src/cells/functions.json"), "utf8"));

  it("lists the functions of the registry, no more and no fewer", () => {
    const ids = registration.functions.map(({ id }: { id: string }) => id);
    expect(ids).toEqual(cellFunctions.map(({ id }) => id));
  });

  it("asks for errors and for rich values as they are, so that a cell in error can be named", () => {
    expect(registration.allowErrorForDataTypeAny).toBe(true);
    expect(registration.allowCustomDataForDataTypeAny).toBe(true);
  });

  it("keeps to the characters and lengths that Excel takes", () => {
    for (const { id, name, description } of registration.functions) {
      expect(id).toMatch(/^[A-Z][A-Z0-9.]{2,}$/);
      expect(name).toMatch(/^[A-Z][A-Z0-9.]{2,127}$/);
      expect(description.length, id).toBeGreaterThan(10);
    }
  });
});

describe("the address of the add-in", () => {
  it("is the development one unless told otherwise, and loses the slash at its end", () => {
    expect(addinAddress(undefined)).toBe(DEVELOPMENT_ADDRESS);
    expect(addinAddress(" ")).toBe(DEVELOPMENT_ADDRESS);
    expect(addinAddress("https://apps.example.com/vanesheet/")).toBe("https://apps.example.com/vanesheet");
  });

  it.each(["http://apps.example.com", "apps.example.com", "https://example.com/?x=1"])("is not %s", (given) => {
    expect(() => addinAddress(given)).toThrow("VANESHEET_BASE_URL");
  });
});
