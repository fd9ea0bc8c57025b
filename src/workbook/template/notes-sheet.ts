import { jobLine } from "./job-line.js";
import { cell, EMPTY_SHEET } from "./plan-parts.js";
import type { SheetPlan } from "./sheet-plan.js";

/** One paragraph under a topic. */
export type Note = readonly [topic: string, text: string];

const CAUTIONS: readonly Note[] = [
  [
    "Ladders",
    "Set the ladder up on firm ground and look it over first. Keep three points of contact and do not reach out. Above a ceiling watch for joists, wiring and where a foot would go through.",
  ],
  [
    "Drilling a duct",
    "Wear eye and hand protection. First look for wiring, refrigerant lines, coils, dampers and lining. Never drill a flue, a gas pipe or a fire-rated assembly. Plug every hole air-tight.",
  ],
  [
    "Old duct tape, wrap and board",
    "They may hold asbestos. Do not drill, scrape or pull them; stop and call a qualified inspector.",
  ],
  [
    "Fans and motors",
    "Lock out and tag out before hands go near belts, pulleys or an open fan inlet. Put guards back before a start. Electrical cabinets are for qualified people. Check the motor's current before a fan is sped up.",
  ],
  [
    "Combustion appliances",
    "Closing returns, raising exhaust or sealing ducts can pull flue gas into the house. Test for spillage and carbon monoxide after every change, and leave changes to people who are licensed for it.",
  ],
  [
    "Closing outlets",
    "Do not close so many that a coil freezes or a heat exchanger overheats; watch temperature rise, motor current and static pressure.",
  ],
  ["Not for", "Fume hoods, laboratory and hospital rooms, and exhaust of anything harmful: that is specialist work."],
  [
    "What rules",
    "Local codes, the equipment's instructions, the designer's tolerances and licensed practice. These sheets give estimates, not a certificate.",
  ],
];

const ASSUMED: readonly Note[] = [
  [
    "Factor 0.75",
    "Taken where no factor is given. The only published base known is NFPA 54, which lets metal louvers of combustion-air openings count as 75 % free; for other openings it is common practice. The true factor may be off by 10 % or more, so the ± of such a row is wide.",
  ],
  [
    "± of a result",
    "± (95 %): how far off a number may be, from instrument, factor, area and repeatability. Where the sheet Job gives none, these are assumed. Instrument ±10 % (DOE/NREL Standard Work Specification 6.6201.4). Published factor ±10 %, assumed factor ±20 %, area ±2 % (common practice). A sweep that was not repeated: repeatability 5 % (derived from IMO MSC/Circ. 729). Few points that differ much widen it.",
  ],
  [
    "Limits",
    "±10 % at outlets is what several public specifications ask; one county's asks −5 % and +10 % at outlets and −0 % and +10 % at outside-air inlets. The specification of your job rules: enter its limits on the sheet Job.",
  ],
  ["Standard air", "0.075 lb/ft³ (1.2 kg/m³), taken where no air temperature is given."],
];

const EVERYWHERE: readonly Note[] = [
  [
    "Shaded cells",
    "are yours. Select one and a note says what belongs there. Everything else is calculated and locked.",
  ],
  [
    "Blank and zero",
    "Leave a cell empty where nothing was measured. Type 0 where the meter showed nothing: a dead spot counts, an empty cell does not.",
  ],
  [
    "Sort, add or delete rows",
    "First choose Review, Unprotect Sheet; there is no password. Then sort by any header, insert rows inside the table or delete whole rows: every formula looks at its own row only. Copy the formulas of a neighbor into a new row if your program does not do it.",
  ],
  [
    "Without the add-in",
    "Cells that begin with =VANE. need it: they show their last value, then #NAME?. A hand-off copy has no such cells.",
  ],
];

const CHARACTERS_PER_LINE = 118;

/** The sheet that explains: how to fill the others, what is assumed and from where, and what to be careful about. */
export function notesSheet(name: string, purpose: string, steps: readonly Note[], sources: readonly Note[]): SheetPlan {
  const parts: readonly (Note | string)[] = [
    "How to fill it",
    ...steps,
    ...EVERYWHERE,
    "What is assumed, and from where",
    ...sources,
    ...ASSUMED,
    "Take care",
    ...CAUTIONS,
  ];
  const firstRow = 5;
  const cells = parts.flatMap((part, index) => {
    const row = firstRow + index;
    if (typeof part === "string") return [cell(`A${row}`, part, "section"), cell(`B${row}`, null, "section")];
    return [cell(`A${row}`, part[0], "topic"), cell(`B${row}`, part[1], "paragraph")];
  });
  const heights = parts.map((part, index) => [firstRow + index, heightOf(part)] as const);
  return {
    ...EMPTY_SHEET,
    name,
    role: "notes",
    columnWidths: [30, 104],
    rowHeights: Object.fromEntries([[1, 26], ...heights]),
    cells: [cell("A1", name, "title"), cell("A2", purpose, "lead"), cell("A3", jobLine(), "lead"), ...cells],
    frozen: { rows: 3, columns: 0 },
    print: {
      orientation: "landscape",
      area: `A1:B${firstRow + parts.length - 1}`,
      repeatedRows: "1:3",
      fitToPagesHigh: null,
      sideBySide: { breakAfter: [], repeatedColumns: null, scalePercent: SCALE_PERCENT },
      breakBelow: breaksOver(parts, firstRow),
    },
  };
}

/** Text of 10 points at 8.5; both columns are as wide as Letter then, and A4 is wider. */
const SCALE_PERCENT = 85;

/**
 * What a page of either paper holds below the rows that it repeats, in points at that scale: A4 a little less, Letter a
 * little more, as printed by LibreOffice.
 */
const PAGE_POINTS = 540;

/** The rows above headings that would be at a page's foot with less than two paragraphs below them. */
function breaksOver(parts: readonly (Note | string)[], firstRow: number): readonly number[] {
  const breaks: number[] = [];
  let used = 0;
  parts.forEach((part, index) => {
    const height = heightOf(part);
    const withNext = parts.slice(index, index + 3).reduce((sum, one) => sum + heightOf(one), 0);
    const isHeading = typeof part === "string" && index > 0;
    if (isHeading && used + withNext > PAGE_POINTS) {
      breaks.push(firstRow + index - 1);
      used = 0;
    } else if (used + height > PAGE_POINTS) used = 0;
    used += height;
  });
  return breaks;
}

function heightOf(part: Note | string): number {
  if (typeof part === "string") return 24;
  return 5 + 13.5 * Math.ceil(part[1].length / CHARACTERS_PER_LINE);
}
