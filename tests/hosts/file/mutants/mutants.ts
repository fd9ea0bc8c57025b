import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { unzipSync, zipSync } from "fflate";
import { TEMPLATES, type TemplateId } from "../../../../src/workbook/index.js";
import { openWorkbook, patchWorkbook, type ValueEdit } from "../../../../src/xlsx/index.js";
import { filledWith } from "../../../support/filled-templates.js";
import { richWorkbook } from "../rich-workbook.js";
import { type Dice, makeDice } from "./dice.js";
import { mutateFormulas, mutateParts, type Parts } from "./mutate-parts.js";
import { mutateZip } from "./mutate-zip.js";

const TEMPLATE_FOLDER = join(import.meta.dirname, "../../../../templates");
const HOW = ["zip", "parts", "parts", "parts", "formulas", "formulas"] as const;

/** A sound workbook, and its parts. */
interface Sound {
  readonly bytes: Uint8Array;
  readonly parts: Parts;
}

/** How a workbook is spoilt: which one, in which way, and the numbers from which each of its changes is made. */
export interface Mutant {
  readonly workbook: string;
  readonly how: (typeof HOW)[number];
  readonly changes: readonly (readonly number[])[];
}

function filledTemplate(template: TemplateId): Uint8Array {
  const bytes = new Uint8Array(readFileSync(join(TEMPLATE_FOLDER, `${template}.xlsx`)));
  const edits = Object.entries(filledWith(template, TEMPLATES[template](""))).flatMap(([sheet, cells]) =>
    Object.entries(cells).map(([address, value]): ValueEdit => ({ kind: "value", sheet, address, value })),
  );
  return patchWorkbook(openWorkbook(bytes, `${template}.xlsx`), edits);
}

const templates = Object.keys(TEMPLATES) as TemplateId[];
const WORKBOOKS = [...templates, "rich"] as const;

/** Makes the sound workbooks: each template with the demonstration job in it, and one with all that people keep. */
export async function soundWorkbooks(): Promise<ReadonlyMap<string, Sound>> {
  const made = new Map<string, Uint8Array>(templates.map((template) => [template, filledTemplate(template)]));
  made.set("rich", await richWorkbook());
  return new Map([...made].map(([name, bytes]) => [name, { bytes, parts: new Map(Object.entries(unzipSync(bytes))) }]));
}

const numbers = fc.array(fc.nat(0x7ffffffd), { minLength: 8, maxLength: 8 });

/** Mutants to try; one that fails is made smaller, with fewer changes. */
export const anyMutant: fc.Arbitrary<Mutant> = fc.record({
  workbook: fc.constantFrom<string>(...WORKBOOKS),
  how: fc.constantFrom(...HOW),
  changes: fc.array(numbers, { minLength: 1, maxLength: 4 }),
});

/** Makes the file of a mutant. */
export function mutantFile({ workbook, how, changes }: Mutant, sound: ReadonlyMap<string, Sound>): Uint8Array {
  const source = sound.get(workbook);
  if (source === undefined) throw new Error(`There is no workbook ${workbook}.`);
  const all = changes.map(makeDice);
  if (how === "zip") return all.reduce((bytes: Uint8Array, dice: Dice) => mutateZip(bytes, dice), source.bytes);
  const mutate = how === "parts" ? mutateParts : mutateFormulas;
  const parts = all.reduce((before: Parts, dice: Dice) => mutate(before, dice), source.parts);
  return zipSync(Object.fromEntries(parts), { level: 1 });
}
