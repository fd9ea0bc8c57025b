import { childOf, type XmlElement } from "../xml/xml-tree.js";

/** The colours of a theme by the names that drawings give them. */
const SCHEME: Readonly<Record<string, number>> = {
  lt1: 0,
  bg1: 0,
  dk1: 1,
  tx1: 1,
  lt2: 2,
  bg2: 2,
  dk2: 3,
  tx2: 3,
  accent1: 4,
  accent2: 5,
  accent3: 6,
  accent4: 7,
  accent5: 8,
  accent6: 9,
  hlink: 10,
  folHlink: 11,
};

/** Thousandths of a percent. */
const WHOLE = 100_000;

/**
 * Returns the colour that fills something drawn, six hexadecimal digits; undefined where it is not one plain colour.
 * Shades and tints are taken in each of red, green and blue, which other programs take in linear light.
 *
 * @param holder - The element that holds `solidFill`
 * @param theme - Colours of the theme, as styles number them
 * @source ECMA-376-1:2016, sections 20.1.2.3 and 20.1.8.54
 */
export function fillOf(holder: XmlElement | undefined, theme: readonly string[]): string | undefined {
  const color = childOf(holder, "solidFill")?.children[0];
  if (color === undefined) return undefined;
  const { val = "", lastClr = "" } = color.attributes;
  const plain = color.name === "sysClr" ? lastClr : color.name === "schemeClr" ? theme[SCHEME[val] ?? -1] : val;
  if (plain === undefined || !/^[0-9a-f]{6}$/i.test(plain)) return undefined;
  let channels = [0, 2, 4].map((at) => Number.parseInt(plain.slice(at, at + 2), 16) / 255);
  for (const { name, attributes } of color.children) {
    const share = Number(attributes["val"]) / WHOLE;
    if (!Number.isFinite(share)) continue;
    if (name === "lumMod" || name === "shade") channels = channels.map((value) => value * share);
    if (name === "lumOff") channels = channels.map((value) => value + share);
    if (name === "tint") channels = channels.map((value) => value * share + 1 - share);
  }
  return channels
    .map((value) => Math.round(255 * Math.min(1, Math.max(0, value))))
    .map((value) => value.toString(16).padStart(2, "0"))
    .join("")
    .toUpperCase();
}
