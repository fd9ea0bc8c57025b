import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cellFunctions, NAMESPACE } from "../../src/cells/index.js";
import { EXCEL_COMMANDS } from "../../src/pane/excel-commands.js";
import { functionsFor } from "../../src/pane/install/check-folder.js";
import { addinAddress, DEVELOPMENT_ADDRESS } from "../../src/tools/addin/addin-address.js";
import { functionsHelp } from "../../src/tools/addin/functions-help.js";
import { withHelpAddresses } from "../../src/tools/addin/functions-metadata.js";
import { manifestIssues } from "../../src/tools/addin/manifest-issues.js";
import { ADDIN_VERSION } from "../../src/workbook/addin-id.js";
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

const commands = Object.keys(EXCEL_COMMANDS);
const around = (address: string) => ({ version, address, namespace: NAMESPACE, commands, file });
const issues = (xml: string) => manifestIssues(xml, around(DEVELOPMENT_ADDRESS));

describe("the add-in's manifest", () => {
  it("is in order", () => {
    expect(issues(manifest)).toEqual([]);
  });

  it("is in order for any other address too", () => {
    const address = "https://apps.example.com/vanesheet";
    const moved = manifest.replaceAll(DEVELOPMENT_ADDRESS, address);
    expect(manifestIssues(moved, around(address))).toEqual([]);
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
    ["an unused resource", 'resid="Check.Tooltip"', 'resid="Check.Label"', "Check.Tooltip is not used"],
    ["an icon of the wrong size", "icons/icon-80.png", "icons/icon-64.png", "64 x 64, not 80"],
    ["a missing icon size", /<bt:Image size="16".*/, "", "lacks its 16 px icon"],
    ["an older shared runtime", 'Name="SharedRuntime" MinVersion="1.1"', 'Name="SharedRuntime"', "SharedRuntime 1.1"],
    ["another namespace", 'DefaultValue="VANE"', 'DefaultValue="AIR"', "namespace is not VANE"],
    ["another tab", 'id="TabHome"', 'id="TabData"', "not on the Home tab"],
    [
      "elements in another order",
      /(<Label resid="Group.Label" \/>)(\s*<Icon>[\s\S]*?<\/Icon>)/,
      "$2$1",
      "Group holds Icon, Label",
    ],
    ["a button without its tip", /<Supertip>[\s\S]*?<\/Supertip>/, "", "Control:Button holds Label, Icon, Action"],
    ["an id twice", 'id="Vanesheet.Check"', 'id="Vanesheet.Measure"', "Vanesheet.Measure comes twice"],
    ["a permission of its own", "ReadWriteDocument", "All", "Permissions is “All”"],
    [
      "a label too long",
      'DefaultValue="Airflow"',
      `DefaultValue="${"Airflow ".repeat(20)}"`,
      "Group.Label is longer than 125",
    ],
    [
      "a command that nobody takes",
      "<FunctionName>handOff",
      "<FunctionName>handOver",
      "nobody takes the command handOver",
    ],
    ["shortcuts that are not served", "/shortcuts.json", "/keys.json", "no file is served"],
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

  it("leads from each function to its place in the help page, once the address is known", () => {
    const text = JSON.stringify(registration);
    const { functions } = JSON.parse(withHelpAddresses(text, "https://apps.example.com/vanesheet"));
    const face = functions.find(({ id }: { id: string }) => id === "AIRFLOW.FACE");
    expect(face.helpUrl).toBe("https://apps.example.com/vanesheet/functions.html#airflow-face");
    expect(functionsFor(text, "https://apps.example.com/vanesheet/")).toBe(
      withHelpAddresses(text, "https://apps.example.com/vanesheet"),
    );
    const help = functionsHelp(join(repository, "shared/cases"));
    for (const { helpUrl } of functions) expect(help).toContain(`id="${helpUrl.split("#")[1]}"`);
  });

  it("keeps to the characters and lengths that Excel takes", () => {
    for (const { id, name, description } of registration.functions) {
      expect(id).toMatch(/^[A-Z][A-Z0-9.]{2,}$/);
      expect(name).toMatch(/^[A-Z][A-Z0-9.]{2,127}$/);
      expect(description.length, id).toBeGreaterThan(10);
      expect(description.length, id).toBeLessThanOrEqual(255);
      expect(description, id).not.toMatch(/[\r\n]/);
    }
  });
});

describe("the version", () => {
  it("of the package is the one that workbooks name", () => {
    expect(ADDIN_VERSION).toBe(version);
  });
});

describe("the address of the add-in", () => {
  it("is none unless told, and loses the slash at its end", () => {
    expect(addinAddress(undefined)).toBeNull();
    expect(addinAddress(" ")).toBeNull();
    expect(addinAddress("https://apps.example.com/vanesheet/")).toBe("https://apps.example.com/vanesheet");
  });

  it.each(["http://apps.example.com", "apps.example.com", "https://example.com/?x=1"])("is not %s", (given) => {
    expect(() => addinAddress(given)).toThrow("VANESHEET_BASE_URL");
  });
});
