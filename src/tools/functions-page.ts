import type { IFunction } from "custom-functions-metadata";
import { callSignature } from "../cells/index.js";

/** Ids whose first word names a group of its own; the rest of the groups follow from the first word. */
const GROUP_TITLES: Readonly<Record<string, string>> = {
  AIR: "Air",
  AIRFLOW: "Airflow",
  BALANCE: "Balance",
  CHANGE: "Before and after",
  DESIGN: "Design",
  FAN: "Fan",
  HEAT: "Heat",
  OPENING: "Openings",
  SHEET: "Whole sheets",
  SWEEP: "Timed sweeps",
  TRAVERSE: "Traverses",
  UNCERTAINTY: "Trust",
  WORKINGS: "Workings",
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
    [`## ${GROUP_TITLES[key] ?? key}`, "", ...members.map(section)].join("\n"),
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
    "",
    ...sections,
  ].join("\n");
}
