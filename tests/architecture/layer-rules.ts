import type { IForbiddenRuleType } from "dependency-cruiser";

/** A rule of direction between layers, and an import that breaks it: the test plants it and expects a finding. */
export interface LayerRule {
  readonly rule: IForbiddenRuleType;
  readonly planted: { readonly file: string; readonly imports: string };
}

function only(
  layer: string,
  allowed: readonly string[],
  comment: string,
  planted: { readonly file: string; readonly imports: string },
): LayerRule {
  const may = [layer, ...allowed].map((path) => `${path}/`).join("|");
  return {
    rule: {
      name: `${layer.replaceAll("/", "-")}-direction`,
      comment,
      severity: "error",
      from: { path: `^${layer}/` },
      to: { path: "^(src|shared|tests)/", pathNot: `^(${may})` },
    },
    planted,
  };
}

const BELOW_HOSTS = ["shared", "src/core", "src/cells", "src/xlsx", "src/logger", "src/workbook", "src/engine"];

export const layerRules: readonly LayerRule[] = [
  only("shared", [], "Tables are data: they know nobody.", {
    file: "shared/tables/planted.ts",
    imports: "src/core/planted.ts",
  }),
  only("src/core", ["shared"], "Numbers in, numbers out: core knows its tables and nothing else.", {
    file: "src/core/planted.ts",
    imports: "src/cells/planted.ts",
  }),
  only("src/cells", ["shared", "src/core"], "A cell function is one call of core.", {
    file: "src/cells/planted.ts",
    imports: "src/workbook/planted.ts",
  }),
  only("src/xlsx", [], "Reads and patches the bytes of any workbook: it knows nothing of air, nor of our functions.", {
    file: "src/xlsx/planted.ts",
    imports: "src/cells/planted.ts",
  }),
  only("src/logger", ["shared", "src/core"], "Reads what an instrument logged: it knows no cell and no workbook.", {
    file: "src/logger/planted.ts",
    imports: "src/workbook/planted.ts",
  }),
  only("src/engine", BELOW_HOSTS.slice(0, -1), "The engine calculates; it knows no host.", {
    file: "src/engine/planted.ts",
    imports: "src/hosts/page/planted.ts",
  }),
  only(
    "src/workbook",
    ["shared", "src/core", "src/cells", "src/xlsx", "src/logger"],
    "Workbook logic asks the port; which host answers is not its business.",
    { file: "src/workbook/planted.ts", imports: "src/hosts/file/planted.ts" },
  ),
  only("src/hosts/file", BELOW_HOSTS, "Hosts never import each other.", {
    file: "src/hosts/file/planted.ts",
    imports: "src/hosts/page/planted.ts",
  }),
  only("src/hosts/page", BELOW_HOSTS, "Hosts never import each other.", {
    file: "src/hosts/page/planted.ts",
    imports: "src/hosts/excel/planted.ts",
  }),
  only("src/hosts/excel", BELOW_HOSTS.slice(0, -1), "Hosts never import each other; Excel is its own engine.", {
    file: "src/hosts/excel/planted.ts",
    imports: "src/engine/planted.ts",
  }),
  only("src/pane", [...BELOW_HOSTS, "src/hosts/page", "src/hosts/excel"], "The pane knows no file system.", {
    file: "src/pane/planted.ts",
    imports: "src/hosts/file/planted.ts",
  }),
  only("src/cli", [...BELOW_HOSTS, "src/hosts/file"], "The command line works on files.", {
    file: "src/cli/planted.ts",
    imports: "src/pane/planted.ts",
  }),
  {
    rule: {
      name: "no-node-below-hosts",
      comment: "core, cells, xlsx, logger, workbook and engine run in a browser too: no file system, no process.",
      severity: "error",
      from: { path: "^(shared|src/(core|cells|xlsx|logger|workbook|engine|hosts/page|hosts/excel|pane))/" },
      to: { dependencyTypes: ["core"] },
    },
    planted: { file: "src/workbook/planted.ts", imports: "node:fs" },
  },
  {
    rule: {
      name: "core-needs-no-package",
      comment: "The functions bundle stays small: core and cells use no package.",
      severity: "error",
      from: { path: "^(shared|src/(core|cells))/" },
      to: { path: "node_modules/", dependencyTypesNot: ["type-only"] },
    },
    planted: { file: "src/core/planted.ts", imports: "mathjs" },
  },
  {
    rule: {
      name: "engine-only-behind-its-door",
      comment: "The spreadsheet engine evaluates strings as code: it stays out of the Excel pane and out of core.",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/(engine|hosts/page|pane/page)" },
      to: { path: "node_modules/@odoo/" },
    },
    planted: { file: "src/hosts/excel/planted.ts", imports: "@odoo/o-spreadsheet" },
  },
  {
    rule: {
      name: "no-circle",
      comment: "A circle hides which part leans on which.",
      severity: "error",
      from: { path: "^(src|shared)/" },
      to: { circular: true },
    },
    planted: { file: "src/core/planted.ts", imports: "src/core/planted-back.ts" },
  },
];
