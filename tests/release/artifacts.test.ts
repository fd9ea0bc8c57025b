import { execFileSync, spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { strFromU8, unzipSync } from "fflate";

import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cellFunctions, NAMESPACE } from "../../src/cells/index.js";
import { EXCEL_COMMANDS } from "../../src/pane/excel-commands.js";
import { manifestIssues } from "../../src/tools/addin/manifest-issues.js";
import { openServedAddin } from "../../src/tools/excel-bridge/open-bridge.js";
import { launchBrowser } from "../../src/tools/launch-browser.js";
import { formulaCellsOf, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { cellsOf, readSentBack } from "../browser/sent-back.js";
import { recalculated } from "../support/libreoffice.js";
import { type ServedZip, serveUnpacked } from "./serve-unpacked.js";

/* What people get, used as they would: from an empty folder, with nothing of this project around it. */

const root = resolve(import.meta.dirname, "../..");
const release = join(root, "dist", "release");
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
const artifact = (name: string) => join(release, name.replace("VERSION", version));
const TEMPLATES = ["before-after", "duct-traverse", "face-sweep", "job-summary", "room-balance"];

let folder = "";

function build(): string {
  execFileSync(process.execPath, [join(root, "build/src/tools/release/build-release.js")], { cwd: root });
  return readFileSync(join(release, "SHA256SUMS"), "utf8");
}

function unzipped(name: string): Map<string, Uint8Array> {
  return new Map(Object.entries(unzipSync(readFileSync(artifact(name)))));
}

/** Runs the installed command with no other part of the project in reach. */
function run(...args: readonly string[]) {
  const command = join(folder, "installed/lib/node_modules/vanesheet/vanesheet.cjs");
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], { cwd: folder, encoding: "utf8" });
  return { status, out: stdout.trim(), err: stderr.trim() };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "release-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the release", () => {
  it("gives the same bytes twice, under true checksums", () => {
    const first = build();
    expect(build()).toBe(first);
    for (const line of first.trim().split("\n")) {
      const [sum, name = ""] = line.split("  ");
      expect(
        createHash("sha256")
          .update(readFileSync(join(release, name)))
          .digest("hex"),
        name,
      ).toBe(sum);
    }
    expect(first.trim().split("\n")).toHaveLength(readdirSync(release).length - 1);
  }, 240_000);

  it("holds a license text for everything that its list of contents names", () => {
    for (const name of ["vanesheet-page", "vanesheet-addin"]) {
      const files = unzipped(`${name}-VERSION.zip`);
      const bom = JSON.parse(readFileSync(artifact(`${name}-VERSION.cdx.json`), "utf8"));
      const notices = strFromU8(files.get(`${name}-${version}/THIRD-PARTY-NOTICES.txt`) ?? new Uint8Array());
      expect(bom).toMatchObject({ bomFormat: "CycloneDX", specVersion: "1.6" });
      expect(bom.components.length).toBeGreaterThan(10);
      for (const { group, name: plain, version: of } of bom.components) {
        const full = group === undefined ? plain : `${group}/${plain}`;
        const file = new RegExp(`^${full} ${of}: .*, (licenses/.*\\.txt)$`, "m").exec(notices)?.[1];
        const text = files.get(`${name}-${version}/${file}`);
        expect(text === undefined ? "" : strFromU8(text), full).toMatch(/copyright|permission|redistribut/i);
      }
    }
  });

  it("keeps the spreadsheet engine in one file of the page, and out of the command line", () => {
    const unpacked = join(folder, "unpacked");
    mkdirSync(unpacked);
    execFileSync("tar", ["-xzf", artifact("vanesheet-VERSION.tgz"), "-C", unpacked]);
    const held = join(unpacked, "package");
    const scripts = readdirSync(held, { recursive: true, encoding: "utf8" }).filter((name) => /\.[cm]?js$/.test(name));
    const isEngine = (name: string) => /o-spreadsheet|o_spreadsheet/.test(readFileSync(join(held, name), "utf8"));
    expect(scripts.length).toBeGreaterThan(5);
    expect(scripts.filter(isEngine).filter((name) => !name.startsWith("page/"))).toEqual([]);
    expect(scripts).toContain("page/engine.js");
  });
});

describe("the npm package", () => {
  beforeAll(() => {
    const prefix = join(folder, "installed");
    const cache = join(folder, "cache");
    const args = [
      "install",
      "-g",
      "--prefix",
      prefix,
      "--cache",
      cache,
      "--offline",
      artifact("vanesheet-VERSION.tgz"),
    ];
    execFileSync("npm", args, { cwd: folder, encoding: "utf8" });
  }, 120_000);

  it("installs one package without asking any registry", () => {
    expect(readdirSync(join(folder, "installed/lib/node_modules"))).toEqual(["vanesheet"]);
    expect(run("--version")).toEqual({ status: 0, out: version, err: "" });
  });

  it("runs every command", () => {
    const help = run("--help").out;
    const commands = [...help.matchAll(/^ {2}(\w+) {2,}/gm)].map(([, name = ""]) => name);
    expect(commands).toEqual(expect.arrayContaining(["calc", "check", "eval", "handoff", "new", "page", "rollup"]));
    for (const command of commands) expect(run(command, "--help").out).toContain(`usage: vanesheet ${command}`);

    expect(run("eval", "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)").out).toBe("175");
    for (const template of TEMPLATES) expect(run("new", template, `${template}.xlsx`)).toMatchObject({ status: 0 });
    expect(run("calc", "room-balance.xlsx")).toMatchObject({ status: 0, err: "" });
    expect(run("check", "room-balance.xlsx")).toMatchObject({ status: 0, err: "" });
    expect(run("handoff", "room-balance.xlsx", "-o", "copy.xlsx")).toMatchObject({ status: 0, err: "" });
    expect(run("functions", "AIRFLOW.FACE").out).toContain("VANE.AIRFLOW.FACE(");
    writeFileSync(join(folder, "log.csv"), "Time,Velocity (fpm)\n10:00:00,400\n10:00:01,420\n10:00:02,410\n");
    expect(run("readings", "log.csv").out).toMatch(/410 fpm/);
  }, 60_000);

  it("ends with the status of what went wrong", () => {
    const wrong = run("calc");
    expect(wrong).toMatchObject({ status: 2, out: "" });
    expect(wrong.err).toBe('vanesheet calc: FILE is missing. "vanesheet calc --help" shows how it is typed.');
    expect(run("calc", "nowhere.xlsx")).toMatchObject({ status: 1, out: "" });
    expect(run("calc", "room-balance.xlsx", "--lazy")).toMatchObject({ status: 2, out: "" });
  });

  it.skipIf(!existsSync("/dev/full"))("says where a result could not be printed", () => {
    const command = join(folder, "installed/lib/node_modules/vanesheet/vanesheet.cjs");
    const { stderr } = spawnSync("sh", ["-c", `"${process.execPath}" "${command}" eval "=1+1" > /dev/full`], {
      encoding: "utf8",
    });
    expect(stderr).toContain("could not be printed whole: the disk is full");
  });

  it("reads many workbooks in threads of its own", () => {
    const jobs = join(folder, "jobs");
    mkdirSync(jobs);
    for (let number = 1; number <= 6; number += 1) run("new", "job-summary", join(jobs, `job-${number}.xlsx`));
    const { out, err } = run("rollup", "jobs", "-o", "summary.xlsx");
    expect(err).toBe("");
    expect(out).toContain("6 workbooks found, 6 read");
    expect(openWorkbook(readFileSync(join(folder, "summary.xlsx")), "summary.xlsx").sheets.length).toBeGreaterThan(1);
  }, 60_000);

  it("is a library of typed formulas", () => {
    const user = join(folder, "user");
    mkdirSync(join(user, "node_modules"), { recursive: true });
    execFileSync("cp", ["-r", join(folder, "installed/lib/node_modules/vanesheet"), join(user, "node_modules")]);
    const source = [
      'import { faceAirflow, rectangleArea } from "vanesheet";',
      "const airflowCfm: number = faceAirflow(400, rectangleArea(14, 6), 0.75);",
      "console.log(airflowCfm);",
    ].join("\n");
    writeFileSync(join(user, "package.json"), '{"type":"module"}');
    writeFileSync(join(user, "use.ts"), source);
    const tsc = join(root, "node_modules/typescript/bin/tsc");
    const flags = ["--module", "nodenext", "--target", "es2022", "--strict", "--skipLibCheck", "use.ts"];
    execFileSync(process.execPath, [tsc, ...flags], { cwd: user, encoding: "utf8" });
    const out = execFileSync(process.execPath, ["use.js"], { cwd: user, encoding: "utf8" });
    expect(Number(out)).toBeCloseTo(175, 9);
  }, 60_000);

  it("serves the page to this machine, and a browser opens it", async () => {
    const command = join(folder, "installed/lib/node_modules/vanesheet/vanesheet.cjs");
    const server = spawn(process.execPath, [command, "page", "--port", "18460"], { cwd: folder });
    const ended = new Promise<number | null>((done) => server.on("exit", (code) => done(code)));
    try {
      const address = await new Promise<string>((found, failed) => {
        let said = "";
        server.stdout.on("data", (chunk: Buffer) => {
          said += chunk.toString("utf8");
          const match = /http:\/\/\S+/.exec(said);
          if (match !== null) found(match[0]);
        });
        server.on("exit", () => failed(new Error(`it ended: ${said}`)));
      });
      const browser = await launchBrowser();
      try {
        const page = await browser.newPage();
        await page.goto(address);
        await page.locator(".o-grid canvas").first().waitFor({ timeout: 60_000 });
      } finally {
        await browser.close();
      }
    } finally {
      server.kill("SIGINT");
    }
    expect(await ended).toBe(0);
  }, 120_000);
});

describe("the page, on a plain server of somebody's", () => {
  it("opens, and after the first visit works without that server", async () => {
    const served = await serveUnpacked(readFileSync(artifact("vanesheet-page-VERSION.zip")), "http");
    const browser = await launchBrowser();
    try {
      const page = await browser.newPage({ viewport: { width: 1366, height: 768 } });
      await page.goto(`${served.address}/`);
      await page.locator(".o-grid canvas").first().waitFor({ timeout: 60_000 });
      await page.evaluate(() => navigator.serviceWorker.ready);
      await served.close();
      await page.reload();
      await page.locator(".o-grid canvas").first().waitFor({ timeout: 60_000 });
      await page.locator("#cell").filter({ hasText: ":" }).waitFor();
      expect(await page.locator("#title").textContent()).not.toBe("");
    } finally {
      await browser.close();
      await served.close();
    }
  }, 120_000);
});

describe("the add-in's folder, on an https server of another origin", () => {
  let served: ServedZip;
  beforeAll(async () => {
    served = await serveUnpacked(readFileSync(artifact("vanesheet-addin-VERSION.zip")), "https");
  }, 60_000);
  afterAll(() => served?.close());

  it("is found in order by its install page, which gives a manifest that names that place", async () => {
    const browser = await launchBrowser();
    try {
      const page = await browser.newPage({ ignoreHTTPSErrors: true, acceptDownloads: true });
      await page.goto(`${served.address}/install.html`);
      await page.locator("#checks li").first().waitFor();
      expect(await page.locator("#checks li.bad").allTextContents()).toEqual([]);
      expect(await page.locator("#verdict").textContent()).toBe("The folder is ready.");
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Download manifest.xml" }).click();
      const manifest = readFileSync(await (await download).path(), "utf8");
      expect(manifest).toContain(`${served.address}/pane.html`);
      expect(manifest).not.toContain("%ADDRESS%");
      const files = unzipped("vanesheet-addin-VERSION.zip");
      const file = (path: string) => files.get(`vanesheet-addin-${version}/${path}`) ?? null;
      const commands = Object.keys(EXCEL_COMMANDS);
      const around = { version, address: served.address, namespace: NAMESPACE, commands, file };
      expect(manifestIssues(manifest, around)).toEqual([]);
    } finally {
      await browser.close();
    }
  }, 60_000);

  it("registers every function in the simulated Excel", async () => {
    const excel = await openServedAddin({ address: served.address });
    try {
      const readings = [
        [400, 420],
        [380, 400],
      ];
      const { results } = await excel.call([{ name: "AIRFLOW.FACE", args: [14, 6, readings, 0.75] }]);
      expect(cellsOf((readSentBack(results[0]) as { value: unknown }).value as never)).toEqual([175]);
      const names = await excel.page.evaluate(() =>
        Object.keys((window as never)["CustomFunctions"]["_association"]["mappings"]),
      );
      expect(names.sort()).toEqual(cellFunctions.map(({ id }) => id).sort());
    } finally {
      await excel.close();
    }
  }, 60_000);
});

describe("the workbooks", () => {
  const top = () => `vanesheet-workbooks-${version}`;

  it("are every template, with VANE functions and plain, in both units and on both papers", () => {
    const files = unzipped("vanesheet-workbooks-VERSION.zip");
    const paths = ["with VANE functions", "with plain formulas"].flatMap((formulas) =>
      ["inch-pound, Letter", "inch-pound, A4", "metric, Letter", "metric, A4"].flatMap((form) =>
        TEMPLATES.map((template) => `${top()}/${formulas}/${form}/${template}.xlsx`),
      ),
    );
    expect([...files.keys()]).toEqual(
      expect.arrayContaining([...paths, `${top()}/README.txt`, `${top()}/LICENSE.txt`]),
    );
  });

  it("calculate in LibreOffice where their formulas are plain, without an error", async () => {
    const files = [...unzipped("vanesheet-workbooks-VERSION.zip")].filter(
      ([path]) => path.includes("/with plain formulas/metric, A4/") && path.endsWith(".xlsx"),
    );
    expect(files).toHaveLength(TEMPLATES.length);
    const named = new Map(files.map(([path, bytes]) => [path.slice(path.lastIndexOf("/") + 1, -5), bytes]));
    for (const [name, bytes] of await recalculated(named)) {
      const workbook = openWorkbook(bytes, name);
      const cells = workbook.sheets.flatMap((sheet) => [...formulaCellsOf(readSheet(workbook, sheet.name))]);
      expect(cells.length, name).toBeGreaterThan(10);
      const errors = cells.filter(({ value }) => typeof value === "object" && value !== null && "error" in value);
      expect(errors, name).toEqual([]);
    }
  }, 170_000);
});
