import { helpers } from "@odoo/o-spreadsheet";
import { type BorderLook, type CellLook, SIDES, type Side } from "../../xlsx/index.js";

/** The engine's own size of letters, which a style need not say. */
const ENGINE_SIZE_PT = 10;

type EngineBorderStyle = "thin" | "medium" | "thick" | "dashed" | "dotted";

/** The engine draws five lines; the others are shown as the one most like them. */
const BORDER_STYLES: Readonly<Record<string, EngineBorderStyle>> = {
  hair: "dotted",
  dotted: "dotted",
  dashed: "dashed",
  mediumDashed: "dashed",
  dashDot: "dashed",
  mediumDashDot: "dashed",
  dashDotDot: "dashed",
  mediumDashDotDot: "dashed",
  slantDashDot: "dashed",
  medium: "medium",
  thick: "thick",
  double: "medium",
};

const ALIGN: Readonly<Record<string, "left" | "center" | "right">> = {
  left: "left",
  center: "center",
  right: "right",
  centerContinuous: "center",
  justify: "left",
  fill: "left",
  distributed: "center",
};

const VERTICAL_ALIGN: Readonly<Record<string, "top" | "middle" | "bottom">> = {
  top: "top",
  center: "middle",
  bottom: "bottom",
  justify: "top",
  distributed: "middle",
};

/** A style in the engine's own form. */
export interface EngineStyle {
  bold?: true;
  italic?: true;
  underline?: true;
  strikethrough?: true;
  fontSize?: number;
  textColor?: string;
  fillColor?: string;
  align?: "left" | "center" | "right";
  verticalAlign?: "top" | "middle" | "bottom";
  wrapping?: "wrap";
  rotation?: number;
  /** The library keeps what it does not know with the cell, wherever that goes. */
  unlocked?: true;
}

/** Returns a cell's look as a style of the engine; an empty one says nothing. */
export function engineStyle(look: CellLook): EngineStyle {
  const align = ALIGN[look.horizontal ?? ""];
  const verticalAlign = VERTICAL_ALIGN[look.vertical ?? ""];
  return {
    ...(look.isBold ? { bold: true } : {}),
    ...(look.isItalic ? { italic: true } : {}),
    ...(look.isUnderlined ? { underline: true } : {}),
    ...(look.isStruck ? { strikethrough: true } : {}),
    ...(look.sizePt === undefined || look.sizePt === ENGINE_SIZE_PT ? {} : { fontSize: look.sizePt }),
    ...(look.textColor === undefined || look.textColor === "000000" ? {} : { textColor: `#${look.textColor}` }),
    ...(look.fillColor === undefined ? {} : { fillColor: `#${look.fillColor}` }),
    ...(align === undefined ? {} : { align }),
    ...(verticalAlign === undefined ? {} : { verticalAlign }),
    ...(look.wraps ? { wrapping: "wrap" } : {}),
    ...(look.isLocked ? {} : { unlocked: true }),
    ...(look.rotationDegrees === 0 ? {} : { rotation: (-look.rotationDegrees * Math.PI) / 180 }),
  };
}

function engineBorder({ style, color }: BorderLook) {
  return { style: BORDER_STYLES[style] ?? "thin", color: `#${color ?? "000000"}` };
}

/** Returns a cell's frame as the engine draws it; an empty one is none. */
export function engineBorders({ borders }: CellLook): Readonly<Partial<Record<Side, object>>> {
  return Object.fromEntries(
    SIDES.flatMap((side) => {
      const border = borders[side];
      return border === undefined ? [] : [[side, engineBorder(border)]];
    }),
  );
}

/**
 * Returns a number format as the engine reads it, undefined for none. Colours, locales, widths and fillers in it are for
 * other programs; a format that the engine cannot read shows the plain number.
 */
export function engineFormat(numberFormat: string): string | undefined {
  const format = numberFormat
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, "")
    .replace(/_./g, "")
    .replace(/\*./g, "")
    .trim();
  if (/^general$/i.test(format) || format === "") return undefined;
  try {
    helpers.parseFormat(format);
    return format;
  } catch {
    // The engine only says whether it can read a format by failing.
    return undefined;
  }
}
