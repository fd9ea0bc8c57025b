import { headingOf, OLD_READING, OUTLET_KINDS } from "../lists/index.js";
import { unit } from "./plain-formulas.js";
import { type InputRule, listInput, numberInput, sizeInput, textInput } from "./plan-parts.js";
import type { InputColumn } from "./table-block.js";

function textColumn(key: string, header: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: "", width, format: "general", style: "inputText", rule };
}

function numberColumn(key: string, header: string, unitText: string, width: number, rule: InputRule): InputColumn {
  return { kind: "input", key, header, unit: unitText, width, format: "general", style: "input", rule };
}

export const outletColumn = textColumn(
  "outlet",
  headingOf("outlet"),
  10,
  textInput("Outlet", "A tag that is used once, such as S-1, also marked on the drawing and on site.", 30),
);

export const systemColumn = textColumn(
  "system",
  headingOf("system"),
  8,
  textInput("System", "The fan or unit that serves it.", 40),
);

export const roomColumn = textColumn(
  "room",
  headingOf("room"),
  14,
  textInput("Room", "The room, spelled the same in every row.", 40),
);

export const kindColumn = textColumn(
  "kind",
  headingOf("kind"),
  10,
  listInput("Kind", "supply, return, exhaust or outside air: decides the total in which it counts.", OUTLET_KINDS),
);

/** What is written on a grille is longer than its column: it goes on below. */
export const makeColumn: InputColumn = {
  ...textColumn(
    "make",
    headingOf("make"),
    13,
    textInput("Make and type", "Manufacturer, type and size, as far as they can be read."),
  ),
  style: "inputWrapped",
};

export const ageColumn = textColumn(
  "age",
  headingOf("age"),
  9,
  listInput(
    "Reading is",
    "old once a damper or the fan of the system was changed after it: read it again, then clear this cell. The pane keeps it.",
    [OLD_READING],
  ),
);

export const noteColumn = textColumn(
  "note",
  headingOf("note"),
  18,
  textInput("Note", "Damper setting, what was in the way, what to repair.", 200),
);

export const widthColumn = numberColumn(
  "width",
  headingOf("width"),
  unit("in", "mm"),
  9,
  sizeInput("Width or diameter", "Clear width inside the frame, not the flange. Round: the diameter, and no height."),
);

export const heightColumn = numberColumn(
  "height",
  headingOf("height"),
  unit("in", "mm"),
  8,
  sizeInput("Height", "Clear height inside the frame. Leave it empty for a round opening."),
);

export const factorColumn = numberColumn(
  "factor",
  headingOf("factor"),
  "ratio",
  7,
  numberInput(
    "Free-area factor",
    "Published for this grille or register, above 0 and at most 1. Open duct: 1. Unknown: leave empty, 0.75 is assumed. An effective area (Ak) is not a factor: divide it by the whole area first.",
    0.01,
    1,
  ),
);

export const designColumn = numberColumn(
  "design",
  headingOf("design"),
  unit("cfm", "L/s"),
  9,
  numberInput("Design airflow", "What the design asks of this outlet.", 0.01, null),
);

/** The columns for single readings at one face, in the order in which they are taken. */
export function readingColumns(count: number, prefix: string, title: string, message: string): readonly InputColumn[] {
  return Array.from({ length: count }, (_, index) =>
    numberColumn(
      `${prefix}${index + 1}`,
      `${prefix}${index + 1}`,
      unit("fpm", "m/s"),
      7,
      numberInput(title, message, -20000, 20000),
    ),
  );
}
