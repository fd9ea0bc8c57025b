import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { startWorkbook } from "../../engine/calculation.js";
import { openTemplate } from "../../hosts/file/index.js";
import { TEMPLATES, type TemplateId } from "../../workbook/index.js";

const FORMULAS = { functions: "with VANE functions", plain: "with plain formulas" } as const;
const UNITS = { ip: "inch-pound", si: "metric" } as const;
const PAPERS = { letter: "Letter", a4: "A4" } as const;

function keysOf<Key extends string>(names: Readonly<Record<Key, string>>): readonly Key[] {
  return Object.keys(names) as Key[];
}

/** Writes every template in every form into a folder: by formulas, then units, then paper. */
export async function layOutTemplates(folder: string): Promise<void> {
  for (const template of Object.keys(TEMPLATES) as TemplateId[]) {
    const opened = await openTemplate(template);
    for (const formulas of keysOf(FORMULAS)) {
      for (const units of keysOf(UNITS)) {
        for (const paper of keysOf(PAPERS)) {
          const path = join(folder, FORMULAS[formulas], `${UNITS[units]}, ${PAPERS[paper]}`, `${template}.xlsx`);
          mkdirSync(dirname(path), { recursive: true });
          writeFileSync(path, startWorkbook(opened, { units, paper, formulas }));
        }
      }
    }
  }
}
