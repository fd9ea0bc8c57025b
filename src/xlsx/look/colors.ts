import { readXml, type XmlAttributes } from "../xml/read-xml.js";

/**
 * The colours that a workbook names by number when it does not list its own.
 *
 * @source ECMA-376-1:2016, section 18.8.27 (indexedColors)
 */
const INDEXED_COLORS: readonly string[] = `
  000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF
  800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF
  000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99
  3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333`
  .trim()
  .split(/\s+/);

/** A theme lists dark before light; a number means light before dark. */
const THEME_ORDER = ["lt1", "dk1", "lt2", "dk2"] as const;
const ACCENTS = ["accent1", "accent2", "accent3", "accent4", "accent5", "accent6", "hlink", "folHlink"] as const;

/**
 * Reads the colours of a theme in the order in which styles number them.
 *
 * @source ECMA-376-1:2016, section 20.1.6.2 (clrScheme)
 */
export function readThemeColors(bytes: Uint8Array, place: string): readonly string[] {
  const found = new Map<string, string>();
  let entry = "";
  readXml(bytes, place, {
    open(name, attributes, depth) {
      if (depth === 4) entry = name;
      if (depth !== 5 || found.has(entry)) return;
      const color = name === "sysClr" ? attributes["lastClr"] : attributes["val"];
      if (color !== undefined && /^[0-9a-f]{6}$/i.test(color)) found.set(entry, color.toUpperCase());
    },
  });
  return [...THEME_ORDER, ...ACCENTS].map((name) => found.get(name) ?? "000000");
}

/**
 * Returns a colour as six hexadecimal digits, red first; undefined where the program chooses.
 *
 * @param attributes - Of a colour element
 * @param theme - Colours of the theme
 * @source ECMA-376-1:2016, section 18.8.19 (fgColor), for how a tint lightens or darkens
 */
export function colorOf(attributes: XmlAttributes, theme: readonly string[]): string | undefined {
  const { rgb, theme: themed, indexed, tint } = attributes;
  let color: string | undefined;
  if (rgb !== undefined && /^[0-9a-f]{6,8}$/i.test(rgb)) color = rgb.slice(-6).toUpperCase();
  else if (themed !== undefined) color = theme[Number(themed)];
  else if (indexed !== undefined) color = INDEXED_COLORS[Number(indexed)];
  return color === undefined ? undefined : tinted(color, Number(tint ?? 0));
}

/** Moves the lightness towards white or black and keeps the hue. */
function tinted(color: string, tint: number): string {
  if (!(Math.abs(tint) > 0 && Math.abs(tint) <= 1)) return color;
  const channels = [0, 2, 4].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255);
  const high = Math.max(...channels);
  const low = Math.min(...channels);
  const lightness = (high + low) / 2;
  const wanted = tint < 0 ? lightness * (1 + tint) : lightness * (1 - tint) + tint;
  const room = (value: number) => 1 - Math.abs(2 * value - 1);
  const scale = room(lightness) === 0 ? 0 : room(wanted) / room(lightness);
  return channels
    .map((channel) => Math.round(255 * Math.min(1, Math.max(0, wanted + (channel - lightness) * scale))))
    .map((value) => value.toString(16).padStart(2, "0"))
    .join("")
    .toUpperCase();
}
