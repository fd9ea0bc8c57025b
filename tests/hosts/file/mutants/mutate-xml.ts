import type { Dice } from "./dice.js";
import { randomFormula, spoiltFormula } from "./random-formula.js";

const PIECES = /<[^>]*>|[^<]+|</g;

/** What an attribute or a text may hold that nobody foresaw. */
const ABSURD: readonly string[] = [
  ..."-1 0 1 2 1.5 007 1e3 NaN Infinity -Infinity 1e308 1e309 -1e309 5e-324 0x10 99999999999999999999 2147483648".split(
    " ",
  ),
  ..."4294967296 -2147483649 16384 16385 1048576 1048577 A0 A1 B2 C7 $A$1 a1 XFD1048576 XFE1 ZZZZ1 A1:XFD1048576".split(
    " ",
  ),
  ..."A1:B2 B2:A1 A1:A1:A1 A1:B1048576 L2:L13 A:A 1:1 A1:,B2 s str inlineStr e b d n shared array dataTable normal".split(
    " ",
  ),
  ..."true false on rId1 rId2 rId999 rId1 ../../../../etc/passwd /xl/workbook.xml #REF! #N/A #VALUE! #NOPE".split(" "),
  ..."__proto__ constructor toString hidden veryHidden External worksheets/sheet1.xml sharedStrings.xml styles.xml".split(
    " ",
  ),
  ..."Outlets Rooms Job Inputs FreeRatio General 0.00% 2024-02-30 2026-01-01T00:00:00Z 1899-12-31 9999-12-31 wavy".split(
    " ",
  ),
  "",
  " ",
  " 1 ",
  "_x0000_",
  "_xD800_",
  "_x000D_a_x005F_",
  "&amp;",
  "&#65;",
  "&#x0;",
  "&#xD800;",
  "&#x10FFFF;",
  "&lt;b&gt;",
  "&nope;",
  "&quot;",
  "𝒳 ä °",
  "\u0001",
  "'",
  "]]&gt;",
  "x".repeat(300),
  "9".repeat(400),
  "x".repeat(40_000),
];

const CELLS: readonly ((dice: Dice) => string)[] = [
  (dice) => `<c r="${dice.oneOf(ABSURD)}"><v>1</v></c>`,
  (dice) => `<c r="C7" t="${dice.oneOf(ABSURD)}"><v>${dice.oneOf(ABSURD)}</v></c>`,
  (dice) => `<c t="s"><v>${dice.oneOf(ABSURD)}</v></c>`,
  (dice) => `<c s="${dice.oneOf(ABSURD)}"><v>${dice.oneOf(ABSURD)}</v></c>`,
  (dice) =>
    `<c><f t="${dice.oneOf(ABSURD)}" si="${dice.oneOf(ABSURD)}" ref="${dice.oneOf(ABSURD)}">${formulaXml(dice)}</f></c>`,
  (dice) => `<c cm="1"><f t="array" ref="${dice.oneOf(ABSURD)}">${formulaXml(dice)}</f><v>0</v></c>`,
  (dice) => `<row r="${dice.oneOf(ABSURD)}"><c><v>${dice.oneOf(ABSURD)}</v></c></row>`,
  (dice) => `<row><c><f>${formulaXml(dice)}</f></c></row>`,
];

const INSERTED: readonly ((dice: Dice) => string)[] = [
  ...CELLS,
  ...CELLS,
  (dice) => `<mergeCells><mergeCell ref="${dice.oneOf(ABSURD)}"/></mergeCells>`,
  (dice) => `<cols><col min="${dice.oneOf(ABSURD)}" max="${dice.oneOf(ABSURD)}" style="${dice.oneOf(ABSURD)}"/></cols>`,
  (dice) => `<dimension ref="${dice.oneOf(ABSURD)}"/>`,
  (dice) =>
    `<definedName name="${dice.oneOf(ABSURD)}" localSheetId="${dice.oneOf(ABSURD)}">${formulaXml(dice)}</definedName>`,
  (dice) => `<tableColumn id="${dice.oneOf(ABSURD)}" name="${dice.oneOf(ABSURD)}"/>`,
  (dice) => `<xf numFmtId="${dice.oneOf(ABSURD)}"/>`,
  (dice) => `<si><t>${dice.oneOf(ABSURD)}</t></si>`,
  (dice) =>
    `<Relationship Id="${dice.oneOf(ABSURD)}" Type="x/${dice.oneOf(["worksheet", "table", "comments", "styles"])}" Target="${dice.oneOf(ABSURD)}"/>`,
  () => "<!-- </sheetData> </sheets> <sheetData> -->",
  () => "<![CDATA[ <row> ]]>",
  () => "<?pi?>",
  () => '<!DOCTYPE x [<!ENTITY e "e">]>',
  (dice) => "<a>".repeat(dice.oneOf([1, 255, 300])),
  () => "<x:a/>",
];

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

function unescaped(text: string): string {
  return text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&amp;", "&");
}

function formulaXml(dice: Dice): string {
  return escaped(randomFormula(dice).replaceAll("\u0001", ""));
}

const isTag = (piece: string): boolean => piece.startsWith("<");

function placesOf(pieces: readonly string[], isWanted: (piece: string) => boolean): readonly number[] {
  return pieces.flatMap((piece, index) => (isWanted(piece) ? [index] : []));
}

/** Where the element that is opened at a place ends; the place itself where it opens none. */
function endOf(pieces: readonly string[], start: number): number {
  const [, name = ""] = /^<([^\s/>!?]+)/.exec(pieces[start] ?? "") ?? [];
  if (name === "" || pieces[start]?.endsWith("/>") === true) return start;
  let depth = 0;
  for (let index = start; index < pieces.length; index += 1) {
    const piece = pieces[index] ?? "";
    if (new RegExp(`^<${name.replace(/[^\w:-]/g, ".")}[\\s>]`).test(piece) && !piece.endsWith("/>")) depth += 1;
    if (piece === `</${name}>`) depth -= 1;
    if (depth === 0) return index;
  }
  return start;
}

type Change = (pieces: readonly string[], dice: Dice) => readonly string[];

function replacedAt(pieces: readonly string[], at: number, piece: string): readonly string[] {
  return pieces.with(at, piece);
}

function opened(pieces: readonly string[], dice: Dice): number | undefined {
  const places = placesOf(pieces, (piece) => /^<[^/!?]/.test(piece));
  return places.length === 0 ? undefined : dice.oneOf(places);
}

function changeAttribute(pieces: readonly string[], dice: Dice): readonly string[] {
  const places = placesOf(pieces, (piece) => isTag(piece) && piece.includes("="));
  if (places.length === 0) return pieces;
  const at = dice.oneOf(places);
  const tag = pieces[at] ?? "";
  const attributes = [...tag.matchAll(/\s([\w:.-]+)\s*=\s*"([^"]*)"/g)];
  if (attributes.length === 0) return pieces;
  const attribute = dice.oneOf(attributes);
  const [whole, name = "", value = ""] = attribute;
  const head = tag.slice(0, attribute.index);
  const tail = tag.slice(attribute.index + whole.length);
  const others = pieces.filter((piece) => piece.includes(` ${name}="`));
  const other = new RegExp(` ${name}="([^"]*)"`).exec(dice.oneOf(others.length === 0 ? [tag] : others))?.[1] ?? "";
  const change = dice.oneOf([
    "",
    `${whole}${whole}`,
    ` ${name}="${other}"`,
    ` ${name}="${value}${dice.oneOf(ABSURD)}"`,
    ` x${name}="${value}"`,
    ` ${name}='${value}'`,
    ...Array.from({ length: 8 }, () => ` ${name}="${dice.oneOf(ABSURD)}"`),
  ]);
  return replacedAt(pieces, at, `${head}${change}${tail}`);
}

function changeText(pieces: readonly string[], dice: Dice): readonly string[] {
  const places = placesOf(pieces, (piece) => !isTag(piece) && piece.trim() !== "");
  if (places.length === 0) return pieces;
  return replacedAt(pieces, dice.oneOf(places), dice.oneOf(ABSURD));
}

const insertSomething: Change = (pieces, dice) =>
  pieces.toSpliced(dice.below(pieces.length), 0, dice.oneOf(INSERTED)(dice));

/** Puts something else in the place of a whole cell or of its formula, its address kept. */
const replaceCell: Change = (pieces, dice) => {
  const places = placesOf(pieces, (piece) => /^<(?:c|f)[\s>]/.test(piece));
  if (places.length === 0) return pieces;
  const start = dice.oneOf(places);
  const end = endOf(pieces, start);
  const [, address] = /\sr="([^"]*)"/.exec(pieces[start] ?? "") ?? [];
  if (address === undefined) {
    const formula = `<f t="${dice.oneOf(["array", "shared", "dataTable"])}" si="${dice.below(3)}" ref="${dice.oneOf(ABSURD)}">`;
    const text = dice.below(3) === 0 ? (pieces[start + 1] ?? "") : formulaXml(dice);
    return pieces.toSpliced(start, end - start + 1, `${formula}${text}</f>`);
  }
  const type = dice.oneOf(["n", "s", "str", "b", "e", "d", "inlineStr"]);
  const formula = dice.below(2) === 0 ? "" : `<f>${formulaXml(dice)}</f>`;
  const value = dice.below(4) === 0 ? "" : `<v>${dice.oneOf(ABSURD)}</v>`;
  return pieces.toSpliced(
    start,
    end - start + 1,
    `<c r="${address}" t="${type}" s="${dice.below(40)}">${formula}${value}</c>`,
  );
};

const CHANGES: readonly Change[] = [
  (pieces, dice) => pieces.toSpliced(dice.below(pieces.length), 1),
  (pieces, dice) => {
    const at = dice.below(pieces.length);
    return pieces.toSpliced(at, 0, pieces[at] ?? "");
  },
  (pieces, dice) => {
    const [one, other] = [dice.below(pieces.length), dice.below(pieces.length)];
    return pieces.with(one, pieces[other] ?? "").with(other, pieces[one] ?? "");
  },
  (pieces, dice) => {
    const start = opened(pieces, dice);
    return start === undefined ? pieces : pieces.toSpliced(start, endOf(pieces, start) - start + 1);
  },
  (pieces, dice) => {
    const start = opened(pieces, dice);
    if (start === undefined) return pieces;
    const end = endOf(pieces, start) + 1;
    return pieces.toSpliced(end, 0, ...pieces.slice(start, end));
  },
  (pieces, dice) => {
    const start = opened(pieces, dice);
    if (start === undefined) return pieces;
    const end = endOf(pieces, start) + 1;
    const rest = pieces.toSpliced(start, end - start);
    return rest.toSpliced(dice.below(rest.length), 0, ...pieces.slice(start, end));
  },
  (pieces, dice) => {
    const start = opened(pieces, dice);
    if (start === undefined) return pieces;
    const end = endOf(pieces, start);
    const name = `$1${dice.oneOf(["x:", "c", "row", "f", "v", "is", "sheetData", "t", "extLst"])}`;
    const renamed = pieces.with(start, (pieces[start] ?? "").replace(/^(<)[^\s/>]+/, name));
    return end === start ? renamed : renamed.with(end, (pieces[end] ?? "").replace(/^(<\/)[^\s>]+/, name));
  },
  changeAttribute,
  changeAttribute,
  changeAttribute,
  changeAttribute,
  changeText,
  changeText,
  insertSomething,
  insertSomething,
  insertSomething,
  replaceCell,
  replaceCell,
  replaceCell,
];

/** Changes tags, attributes and texts of an XML part; most mutants are still well-formed. */
export function mutateXml(xml: string, dice: Dice): string {
  const pieces = xml.match(PIECES) ?? [];
  return pieces.length === 0 ? xml : dice.oneOf(CHANGES)(pieces, dice).join("");
}

const FORMULAS =
  /(<(?:\w+:)?(?:f|definedName|calculatedColumnFormula|formula|formula1|formula2)(?:\s[^>]*[^/])?>)([^<]+)(?=<)/g;

/** Replaces a formula of a part by another, sound or not; undefined where it has none. */
export function mutateFormula(xml: string, dice: Dice): string | undefined {
  const found = [...xml.matchAll(FORMULAS)];
  if (found.length === 0) return undefined;
  const match = dice.oneOf(found);
  const [whole, open = "", formula = ""] = match;
  const after = dice.below(3) === 0 ? spoiltFormula(unescaped(formula), dice) : randomFormula(dice);
  return `${xml.slice(0, match.index)}${open}${escaped(after)}${xml.slice(match.index + whole.length)}`;
}
