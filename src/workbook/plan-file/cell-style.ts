import type { BorderStyle, CellStyle } from "hucre";
import { FONT_NAME, FORMATS, type FormatName, PALETTE, STYLES, type StyleName } from "../template/style.js";

const THIN = { style: "thin", color: { rgb: PALETTE.rule } } as const;
const DOTTED = { style: "dotted", color: { rgb: PALETTE.inputFrame } } as const;
const UNDER = { style: "medium", color: { rgb: PALETTE.header } } as const;

const BORDERS: Readonly<Record<(typeof STYLES)[StyleName]["border"], BorderStyle | null>> = {
  none: null,
  thin: { top: THIN, right: THIN, bottom: THIN, left: THIN },
  input: { top: DOTTED, right: DOTTED, bottom: DOTTED, left: DOTTED },
  under: { bottom: UNDER },
};

/** Looks made so far: there are few, and many cells wear each. */
const looks = new Map<string, CellStyle>();

/** Returns a cell's look as the writer takes it; the same object each time. */
export function cellStyle(name: StyleName, format: FormatName): CellStyle {
  const key = `${name} ${format}`;
  const look = looks.get(key) ?? madeStyle(name, format);
  looks.set(key, look);
  return look;
}

function madeStyle(name: StyleName, format: FormatName): CellStyle {
  const style = STYLES[name];
  const border = BORDERS[style.border];
  return {
    font: {
      name: FONT_NAME,
      size: style.size,
      color: { rgb: style.color },
      ...(style.bold ? { bold: true } : {}),
      ...(style.italic ? { italic: true } : {}),
    },
    ...(style.fill === null ? {} : { fill: { type: "pattern", pattern: "solid", fgColor: { rgb: style.fill } } }),
    ...(border === null ? {} : { border }),
    alignment: {
      horizontal: style.horizontal,
      vertical: style.vertical,
      ...(style.wrap ? { wrapText: true } : {}),
      ...(style.indent === 0 ? {} : { indent: style.indent }),
    },
    numFmt: FORMATS[format],
    protection: { locked: !style.unlocked },
  };
}

/** Returns what a conditional format changes: colours and weight alone. */
export function conditionalStyle(name: StyleName): CellStyle {
  const { bold, italic, color, fill } = STYLES[name];
  return {
    font: { color: { rgb: color }, ...(bold ? { bold: true } : {}), ...(italic ? { italic: true } : {}) },
    ...(fill === null ? {} : { fill: { type: "pattern", pattern: "solid", bgColor: { rgb: fill } } }),
  };
}
