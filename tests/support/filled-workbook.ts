import { type CellContent, TEMPLATES, type TemplateId } from "../../src/workbook/index.js";
import type { GivenCell, GivenWorkbook } from "../hosts/contract.js";
import { givenPlan } from "../hosts/page/page-host-over.js";
import { filledWith } from "./filled-templates.js";

type Changes = Readonly<Record<string, Readonly<Record<string, CellContent>>>>;

function withChanges({ sheets, names }: GivenWorkbook, changes: Changes): GivenWorkbook {
  return {
    names,
    sheets: sheets.map(({ name, cells }) => {
      const all = Object.entries({ ...cells, ...changes[name] });
      return {
        name,
        cells: Object.fromEntries(all.filter((entry): entry is [string, GivenCell] => entry[1] !== null)),
      };
    }),
  };
}

/**
 * A template filled with the invented demonstration job, as a host opens it.
 *
 * @param changes - Cells that hold something else, by sheet; null empties one
 */
export function filledWorkbook(template: TemplateId, changes: Changes = {}): GivenWorkbook {
  const plan = TEMPLATES[template]("");
  return withChanges(withChanges(givenPlan(plan), filledWith(template, plan)), changes);
}
