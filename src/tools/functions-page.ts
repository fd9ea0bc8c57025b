import type { IFunction } from "custom-functions-metadata";
import { callSignature } from "../cells/index.js";
import { groupTitle } from "./addin/group-title.js";

/** How to call a function where a sheet is not laid out as its arguments are. */
const RECIPES: Readonly<Record<string, readonly string[]>> = {
  "SHEET.OUTLETS": [
    "Columns may be anywhere on the sheet and in any order; every argument has the same rows. Rows of headings and titles stay empty, so that whole columns can be given.",
    "",
    "```",
    "=VANE.SHEET.OUTLETS(B5:C24, D5:D24, E5:E24, F5:I24, J5:J24)",
    "=VANE.SHEET.OUTLETS(H5:H24, D5:D24, E5:E24, K5:N24, P5:P24,,,, B5:B24)",
    '=VANE.SHEET.OUTLETS(H5:H24, D5:D24, E5:E24, K5:N24, P5:P24,,,, "round")',
    "=VANE.SHEET.OUTLETS(B5:C24, D5:D24, E5:E24, CHOOSE({1,2,3},F5:F24,H5:H24,K5:K24), P5:P24)",
    "```",
    "",
    "The first has width and height side by side. In the second the heights are in B, before the widths in H. In the third H holds diameters. In the last the readings are in F, H and K, with other columns between them; where HSTACK is known, `HSTACK(F5:F24,H5:H24,K5:K24)` says the same. P holds the count of each row, here `=COUNT(F5,H5,K5)`.",
    "",
  ],
};

function section(declaration: IFunction): string {
  const rows = declaration.parameters.map(
    ({ name, description, optional }) =>
      `| \`${name}\` | ${optional === true ? "optional" : "needed"} | ${description ?? ""} |`,
  );
  return [
    `### VANE.${declaration.name}`,
    "",
    declaration.description ?? "",
    "",
    "```",
    `=${callSignature(declaration)}`,
    "```",
    "",
    "| argument | | meaning |",
    "|---|---|---|",
    ...rows,
    "",
    ...(RECIPES[declaration.id] ?? []),
  ].join("\n");
}

/** Returns docs/functions.md: every cell function by group, with its arguments. */
export function functionsPage(declarations: readonly IFunction[]): string {
  const groups = new Map<string, IFunction[]>();
  for (const declaration of declarations) {
    const key = declaration.id.split(".")[0] as string;
    groups.set(key, [...(groups.get(key) ?? []), declaration]);
  }
  const sections = [...groups].map(([key, members]) =>
    [`## ${groupTitle(key)}`, "", ...members.map(section)].join("\n"),
  );
  return [
    "# The cell functions",
    "",
    "Written by `npm run generate` from the comments in src/cells; change those. What is true of all of them:",
    "",
    "- Wrong input gives `#VALUE!`, missing input `#N/A`, each with a message that names the argument and what to do.",
    "- Nothing measured yet gives an empty cell, so that a half-filled sheet stays quiet.",
    "- Excel hands a blank cell over as 0. Where a 0 can be a reading, give `taken`, the COUNT of the same cells.",
    '- Sizes are inch-pound unless the last argument `units` is "si".',
    '- A width, height or diameter may be text as it is written on a grille: `12 1/2`, `12.5"`, `1\' 2"`, `350 mm`; a width with no height may hold both, `14x6`, or `12 round`. In "si" a fraction needs its unit.',
    "",
    ...sections,
  ].join("\n");
}
