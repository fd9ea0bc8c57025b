import { placeOf, readOptionalPart } from "../package/read-part.js";
import { PLAIN_STYLE } from "../read/styles.js";
import { isTrue } from "../read/workbook-part.js";
import type { Workbook } from "../workbook.js";
import { readXml, type XmlAttributes } from "../xml/read-xml.js";
import { type BorderLook, type CellLook, PLAIN_LOOK, SIDES, type Side, type WorkbookLooks } from "./cell-look.js";
import { colorOf } from "./colors.js";
import { themeColorsOf } from "./theme-colors.js";

type Draft = { -readonly [Key in keyof CellLook]: CellLook[Key] };
type Borders = Partial<Record<Side, BorderLook>>;

/** Lists of a stylesheet that hold pieces of looks. */
const LISTS = ["fonts", "fills", "borders", "cellXfs", "dxfs"] as const;

/**
 * Reads how the cells of a workbook look.
 *
 * @source ECMA-376-1:2016, section 18.8 (styles)
 */
export function readLooks(workbook: Workbook): WorkbookLooks {
  const stylesPart = workbook.relationships.find(({ kind, isExternal }) => kind === "styles" && !isExternal)?.target;
  const styles = stylesPart === undefined ? undefined : readOptionalPart(workbook.archive, stylesPart);
  if (styles === undefined || stylesPart === undefined) return { cells: [], differences: [] };
  const colors = themeColorsOf(workbook);
  return readStylesheet(styles, placeOf(workbook.archive, stylesPart), colors, workbook.styles);
}

function readStylesheet(
  bytes: Uint8Array,
  place: string,
  theme: readonly string[],
  styles: Workbook["styles"],
): WorkbookLooks {
  const pieces = { fonts: [] as Draft[], fills: [] as Draft[], borders: [] as Draft[] };
  const cells: Draft[] = [];
  const differences: Draft[] = [];
  let list: (typeof LISTS)[number] | undefined;
  let draft: Draft | undefined;
  let side: Side | undefined;
  const path: string[] = [];
  const color = (attributes: XmlAttributes) => colorOf(attributes, theme);
  const begin = (attributes: XmlAttributes): void => {
    draft = { ...PLAIN_LOOK };
    if (list === "dxfs") differences.push(draft);
    else if (list === "cellXfs") {
      const { numberFormat, isLocked } = styles[cells.length] ?? PLAIN_STYLE;
      Object.assign(draft, lookOf(attributes, pieces), { numberFormat, isLocked });
      cells.push(draft);
    } else if (list !== undefined) pieces[list].push(draft);
  };
  readXml(bytes, place, {
    open(name, attributes, depth) {
      path[depth] = name;
      if (depth === 2) list = LISTS.find((known) => known === name);
      if (list === undefined) return;
      if (depth === 3) begin(attributes);
      else if (draft !== undefined) {
        side = SIDES.find((known) => known === name) ?? (name === "color" ? side : undefined);
        readPiece(draft, name, attributes, { parent: path[depth - 1] ?? "", side, color });
      }
    },
  });
  return { cells, differences };
}

function lookOf(
  attributes: XmlAttributes,
  { fonts, fills, borders }: Readonly<Record<"fonts" | "fills" | "borders", readonly Draft[]>>,
): Partial<CellLook> {
  const font = fonts[Number(attributes["fontId"] ?? 0)] ?? PLAIN_LOOK;
  const { isBold, isItalic, isUnderlined, isStruck, sizePt, textColor } = font;
  return {
    ...{ isBold, isItalic, isUnderlined, isStruck, sizePt, textColor },
    fillColor: fills[Number(attributes["fillId"] ?? 0)]?.fillColor,
    borders: borders[Number(attributes["borderId"] ?? 0)]?.borders ?? {},
  };
}

interface Place {
  readonly parent: string;
  readonly side: Side | undefined;
  readonly color: (attributes: XmlAttributes) => string | undefined;
}

/** A switch without a value is on. */
function isOn({ val }: XmlAttributes): boolean {
  return val === undefined || isTrue(val);
}

function readPiece(draft: Draft, name: string, attributes: XmlAttributes, { parent, side, color }: Place): void {
  switch (name) {
    case "b":
      draft.isBold = isOn(attributes);
      return;
    case "i":
      draft.isItalic = isOn(attributes);
      return;
    case "u":
      draft.isUnderlined = attributes["val"] !== "none";
      return;
    case "strike":
      draft.isStruck = isOn(attributes);
      return;
    case "sz":
      draft.sizePt = Number(attributes["val"]) || undefined;
      return;
    case "color":
      readColor(draft, parent, side, color(attributes));
      return;
    case "patternFill":
      draft.fillColor = attributes["patternType"] === "none" ? undefined : draft.fillColor;
      return;
    case "fgColor":
      draft.fillColor = color(attributes);
      return;
    case "bgColor":
      // A conditional format keeps the colour of a solid fill as its background.
      draft.fillColor ??= color(attributes);
      return;
    case "alignment":
      draft.horizontal = attributes["horizontal"];
      draft.vertical = attributes["vertical"];
      draft.wraps = isTrue(attributes["wrapText"]);
      draft.rotationDegrees = rotation(Number(attributes["textRotation"] ?? 0));
      return;
    default:
      readBorder(draft, name, attributes);
  }
}

function readColor(draft: Draft, parent: string, side: Side | undefined, color: string | undefined): void {
  if (side === undefined) {
    if (parent === "font") draft.textColor = color;
    return;
  }
  const border = draft.borders[side];
  if (border !== undefined) draft.borders = { ...draft.borders, [side]: { ...border, color } };
}

function readBorder(draft: Draft, name: string, attributes: XmlAttributes): void {
  const side = SIDES.find((known) => known === name);
  const style = attributes["style"];
  if (side === undefined || style === undefined || style === "none") return;
  const borders: Borders = { ...draft.borders, [side]: { style, color: undefined } };
  draft.borders = borders;
}

/** Beyond 90 the file counts downwards. */
function rotation(stored: number): number {
  if (!(stored > 0) || stored > 180) return 0;
  return stored <= 90 ? stored : 90 - stored;
}
