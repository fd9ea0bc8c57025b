import { beforeAll, describe, expect, it } from "vitest";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import {
  type Handoff,
  type HandoffCell,
  handoffOf,
  TEMPLATES,
  type TemplateId,
  type TemplatePlan,
} from "../../../src/workbook/index.js";
import { type CalculatedValues, type Entries, writeTemplate } from "../../../src/workbook/plan-file/index.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../../src/xlsx/index.js";
import { filledWith, inSi, ovalTraverse, pitotTraverse, retestedBalance } from "../../support/filled-templates.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";

interface Copy {
  readonly plan: TemplatePlan;
  readonly results: CalculatedValues;
  readonly handoff: Handoff;
  readonly bytes: Uint8Array;
}

async function handedOff(plan: TemplatePlan, entries: Entries): Promise<Copy> {
  const results = calculatePlan(plan, entries);
  const workbook = openWorkbook(await writeTemplate(plan, entries, () => results), "filled.xlsx");
  const handoff = handoffOf(workbook);
  return { plan, results, handoff, bytes: patchWorkbook(workbook, handoff.edits) };
}

function shown(workbook: Workbook, sheet: string, address: string): number | string | boolean {
  const value = cellAt(readSheet(workbook, sheet), address)?.value ?? "";
  return typeof value === "object" ? value.error : value;
}

/** Cells in which another program shows something else than we do. */
function differences({ plan, results }: Copy, calculated: Workbook): readonly string[] {
  return plan.sheets.flatMap(({ name }) =>
    [...(results.get(name) ?? [])].flatMap(([address, { value }]) => {
      const other = shown(calculated, name, address);
      const isNear =
        typeof value === "number" && typeof other === "number"
          ? Math.abs(value - other) <= 1e-9 * Math.max(Math.abs(value), Math.abs(other))
          : value === other;
      return isNear ? [] : [`${name}!${address}: ${String(value)}, in the copy ${String(other)}`];
    }),
  );
}

function numbersIn({ results }: Copy): number {
  return [...results.values()].flatMap((cells) => [...cells.values()]).filter(({ value }) => typeof value === "number")
    .length;
}

const templates = Object.keys(TEMPLATES) as TemplateId[];

function filled(): readonly (readonly [string, TemplatePlan, Entries])[] {
  return [
    ...templates.flatMap((template) => {
      const plan = TEMPLATES[template]("");
      const entries = filledWith(template, plan);
      return [[template, plan, entries] as const, [`${template}-in-SI`, plan, inSi(entries)] as const];
    }),
    ["pitot-traverse", TEMPLATES["duct-traverse"](""), pitotTraverse()],
    ["oval-traverse", TEMPLATES["duct-traverse"](""), ovalTraverse()],
    ["re-test", TEMPLATES["room-balance"](""), retestedBalance(TEMPLATES["room-balance"](""))],
  ];
}

/** What no plain formula says: docs/command-line.md tells it. */
const KEPT_AS_VALUES: Partial<Readonly<Record<TemplateId, readonly string[]>>> = {
  "duct-traverse": ["VANE.TRAVERSE.DEPTHS", "VANE.TRAVERSE.OVAL", "VANE.TRAVERSE.POINTS"],
};

/** A copy with a wrong result stored in a cell that LibreOffice has to calculate. */
function spoilt({ bytes }: Copy, { sheet, address }: HandoffCell): Uint8Array {
  const workbook = openWorkbook(bytes, "copy.xlsx");
  return patchWorkbook(workbook, [{ kind: "result", sheet, address, value: 123_456 }]);
}

describe("the hand-off copy of a filled template", () => {
  const copies = new Map<string, Copy>();
  const calculated = new Map<string, ReadonlyMap<string, Uint8Array>>();
  let airflow: HandoffCell | undefined;

  function copyOf(name: string): Copy {
    const copy = copies.get(name);
    if (copy === undefined) throw new Error(`${name} was not handed off`);
    return copy;
  }

  const reopened = (program: string, name: string) =>
    openWorkbook(calculated.get(program)?.get(name) ?? new Uint8Array(), `${name}.xlsx`);

  beforeAll(async () => {
    for (const [name, plan, entries] of filled()) copies.set(name, await handedOff(plan, entries));
    const balance = copyOf("room-balance");
    airflow = balance.handoff.plain.find(({ functions }) => functions.includes("VANE.AIRFLOW.FACE"));
    if (airflow === undefined) throw new Error("no airflow was handed off");
    const files = [...copies].map(([name, { bytes }]) => [name, withoutResults(bytes)] as const);
    const all = new Map([...files, ["spoilt", spoilt(balance, airflow)]]);
    calculated.set("LibreOffice", await recalculated(all));
    calculated.set("Gnumeric", await recalculatedByGnumeric(all));
  }, 240_000);

  for (const program of ["LibreOffice", "Gnumeric"]) {
    it.each(filled().map(([name]) => name))(
      `%s: ${program} calculates every number, verdict and blank as we do`,
      (name) => {
        const copy = copyOf(name);
        expect(numbersIn(copy)).toBeGreaterThan(30);
        expect(differences(copy, reopened(program, name))).toEqual([]);
      },
    );
  }

  it("shows no error anywhere, half-filled rows and all", () => {
    for (const [name, { results }] of copies) {
      const errors = [...results].flatMap(([sheet, cells]) =>
        [...cells].filter(([, { value }]) => String(value).startsWith("#")).map(([address]) => `${sheet}!${address}`),
      );
      expect(errors, name).toEqual([]);
    }
  });

  it("keeps only the plan of a traverse as values", () => {
    for (const template of templates) {
      const kept = new Set(copyOf(template).handoff.values.flatMap(({ functions }) => functions));
      expect([...kept].sort(), template).toEqual(KEPT_AS_VALUES[template] ?? []);
    }
  });

  it("holds no call of ours anywhere, no reference to the add-in, and a sheet that says what was replaced", () => {
    for (const template of templates) {
      const workbook = openWorkbook(copyOf(template).bytes, "copy.xlsx");
      const columns = workbook.sheets.flatMap(({ name }) =>
        readSheet(workbook, name).tables.flatMap((table) => table.columns),
      );
      expect(columns.filter(({ calculatedFormula }) => /VANE/i.test(calculatedFormula ?? ""))).toEqual([]);
      expect(handoffOf(workbook).plain).toEqual([]);
      expect(workbook.archive.entries.filter(({ name }) => name.includes("webextension"))).toEqual([]);
      expect(workbook.sheets.at(-1)?.name).toBe("Hand-off note");
    }
  });

  it.each(["LibreOffice", "Gnumeric"])(
    "is calculated by %s indeed: a wrong stored result does not survive",
    (program) => {
      const { sheet, address } = airflow ?? { sheet: "", address: "" };
      const right = copyOf("room-balance").results.get(sheet)?.get(address)?.value;
      expect(right).toBeTypeOf("number");
      expect(shown(reopened(program, "spoilt"), sheet, address)).toBeCloseTo(Number(right), 9);
    },
  );
});
