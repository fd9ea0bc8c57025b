import { themeColorsOf } from "../look/theme-colors.js";
import { placeOf, readOptionalPart, relationshipsOf } from "../package/read-part.js";
import type { Relationship } from "../package/relationships.js";
import type { Sheet } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { childOf, childrenOf, elementWithin, readXmlTree, textIn, type XmlElement } from "../xml/xml-tree.js";
import type { Drawing, DrawingAnchor, DrawingContent, DrawingCorner, DrawingSize } from "./drawing.js";
import { EMU_PER_PX, readChart } from "./read-chart.js";

/** Pictures that browsers show, by the ends of their names. */
const MEDIA_TYPES: Readonly<Record<string, string>> = {
  png: "image/png",
  jpg: "image/jpeg",
  jpeg: "image/jpeg",
  gif: "image/gif",
  bmp: "image/bmp",
  webp: "image/webp",
};

/** What drawings hold beside charts and pictures. */
const OTHERS: Readonly<Record<string, string>> = {
  sp: "a shape",
  cxnSp: "a line",
  grpSp: "a group of shapes",
  graphicFrame: "a drawing of an unknown kind",
  contentPart: "ink",
};

/** Pictures of one sheet together; what goes beyond is named instead of drawn. Chosen by us. */
const MAX_PICTURE_BYTES = 64 * 2 ** 20;

interface Surroundings {
  readonly workbook: Workbook;
  readonly theme: readonly string[];
  readonly relationships: readonly Relationship[];
  pictureBytes: number;
}

const pixels = (emu: string | undefined): number => {
  const value = Number(emu);
  return Number.isFinite(value) ? value / EMU_PER_PX : 0;
};

function cornerOf(corner: XmlElement): DrawingCorner {
  const text = (name: string) => childOf(corner, name)?.text.trim();
  const count = (name: string) => Math.max(0, Math.trunc(Number(text(name)) || 0));
  return {
    column: count("col"),
    columnOffsetPx: pixels(text("colOff")),
    row: count("row"),
    rowOffsetPx: pixels(text("rowOff")),
  };
}

function anchorOf(anchor: XmlElement): DrawingAnchor | undefined {
  const [from, to, extent] = ["from", "to", "ext"].map((name) => childOf(anchor, name));
  const size: DrawingSize = {
    widthPx: pixels(extent?.attributes["cx"]),
    heightPx: pixels(extent?.attributes["cy"]),
  };
  if (anchor.name === "absoluteAnchor") {
    const { x, y } = childOf(anchor, "pos")?.attributes ?? {};
    return { leftPx: pixels(x), topPx: pixels(y), size };
  }
  if (from === undefined) return undefined;
  return to === undefined ? { from: cornerOf(from), size } : { from: cornerOf(from), to: cornerOf(to) };
}

const other = (what: string, text = ""): DrawingContent => ({ kind: "other", what, text });

function chartAt(frame: XmlElement, around: Surroundings): DrawingContent | undefined {
  const chart = elementWithin(frame, "chart");
  const id = Object.entries(chart?.attributes ?? {}).find(([name]) => name.endsWith(":id"))?.[1];
  const target = around.relationships.find((one) => one.id === id && !one.isExternal);
  if (target === undefined) return undefined;
  if (target.kind !== "chart") return other("a chart of a kind that only newer programs know");
  const { archive } = around.workbook;
  try {
    const bytes = readOptionalPart(archive, target.target);
    if (bytes === undefined) return other("a chart that the file lacks");
    const read = readChart(bytes, placeOf(archive, target.target), around.theme);
    return "chart" in read ? { kind: "chart", chart: read.chart } : other(read.other);
  } catch (cause) {
    // The cells of the workbook can be worked with all the same.
    if (!(cause instanceof WorkbookFileError)) throw cause;
    return other("a chart that cannot be read", cause.message);
  }
}

function pictureAt(picture: XmlElement, around: Surroundings): DrawingContent {
  const id = Object.entries(elementWithin(picture, "blip")?.attributes ?? {}).find(([name]) =>
    name.endsWith(":embed"),
  )?.[1];
  const target = around.relationships.find((one) => one.id === id && !one.isExternal)?.target;
  if (target === undefined) return other("a picture that is not in the file");
  const ending = target.slice(target.lastIndexOf(".") + 1).toLowerCase();
  const mediaType = MEDIA_TYPES[ending];
  if (mediaType === undefined) return other(`a picture of the kind “${ending}”`);
  try {
    const bytes = readOptionalPart(around.workbook.archive, target);
    if (bytes === undefined) return other("a picture that the file lacks");
    around.pictureBytes += bytes.length;
    return around.pictureBytes > MAX_PICTURE_BYTES ? other("a large picture") : { kind: "picture", mediaType, bytes };
  } catch (cause) {
    if (!(cause instanceof WorkbookFileError)) throw cause;
    return other("a picture that cannot be read", cause.message);
  }
}

/** What an anchor holds; where a newer program offers a choice, what it chose. */
function heldBy(anchor: XmlElement): XmlElement | undefined {
  const choice = childOf(anchor, "AlternateContent", "Choice") ?? anchor;
  return choice.children.find(({ name }) => name === "pic" || OTHERS[name] !== undefined);
}

function drawingOf(anchor: XmlElement, around: Surroundings): readonly Drawing[] {
  const held = heldBy(anchor);
  const place = anchorOf(anchor);
  if (held === undefined || place === undefined) return [];
  const { name = "", descr = "", hidden = "0" } = elementWithin(held, "cNvPr")?.attributes ?? {};
  if (/^(?:1|true)$/.test(hidden)) return [];
  const texts = childOf(held, "txBody");
  const text = childrenOf(texts, "p").map(textIn).join("\n");
  const content =
    held.name === "pic"
      ? pictureAt(held, around)
      : ((held.name === "graphicFrame" ? chartAt(held, around) : undefined) ??
        other(OTHERS[held.name] ?? "a drawing", text));
  return [{ anchor: place, name, description: descr, content }];
}

/**
 * Reads what lies over the cells of a sheet: charts, pictures, and the names of what can be neither.
 *
 * @throws {WorkbookFileError} When the part that places them is not well-formed or not safe
 * @source ECMA-376-1:2016, section 20.5
 */
export function readDrawings(workbook: Workbook, sheet: Sheet): readonly Drawing[] {
  const { archive } = workbook;
  const parts = relationshipsOf(archive, sheet.partName).filter(
    ({ kind, isExternal }) => kind === "drawing" && !isExternal,
  );
  if (parts.length === 0) return [];
  const theme = themeColorsOf(workbook);
  return parts.flatMap(({ target }) => {
    const bytes = readOptionalPart(archive, target);
    if (bytes === undefined) return [];
    const relationships = relationshipsOf(archive, target);
    const around = { workbook, theme, relationships, pictureBytes: 0 };
    return readXmlTree(bytes, placeOf(archive, target)).children.flatMap((anchor) => drawingOf(anchor, around));
  });
}
