import { Buffer } from "node:buffer";
import type { Dice } from "./dice.js";
import { mutateFormula, mutateXml } from "./mutate-xml.js";

/** The parts of a workbook by name, unpacked. */
export type Parts = ReadonlyMap<string, Uint8Array>;

type Change = (parts: Parts, dice: Dice) => Parts;

const textOf = (bytes: Uint8Array | undefined): string => Buffer.from(bytes ?? new Uint8Array()).toString("utf8");
const bytesOf = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "utf8"));

function withPart(parts: Parts, name: string, content: Uint8Array): Parts {
  return new Map([...parts, [name, content]]);
}

function nameIn(parts: Parts, dice: Dice, isWanted: (name: string) => boolean = () => true): string {
  const names = [...parts.keys()].filter(isWanted);
  return dice.oneOf(names.length === 0 ? [...parts.keys()] : names);
}

const isXml = (name: string): boolean => /\.(xml|rels)$/.test(name);
const isSheet = (name: string): boolean => name.includes("worksheets/sheet");

/** A part that is read: a sheet as often as any other. */
function readPartName(parts: Parts, dice: Dice): string {
  const isRead = (name: string): boolean =>
    /workbook\.xml|worksheets|tables|sharedStrings|styles|comments|Content_Types|_rels|metadata/.test(name);
  return nameIn(parts, dice, dice.oneOf([isSheet, isSheet, isRead, isXml]));
}

const CHANGES: readonly Change[] = [
  function remove(parts, dice) {
    const name = nameIn(parts, dice);
    return new Map([...parts].filter(([one]) => one !== name));
  },
  function rename(parts, dice) {
    const name = nameIn(parts, dice);
    const to = dice.oneOf([
      name.toUpperCase(),
      `${name}x`,
      name.replace("/", "//"),
      name.replace(/^xl/, "../xl"),
      "xl/a b.xml",
    ]);
    return new Map([...parts].map(([one, content]) => [one === name ? to : one, content]));
  },
  function swap(parts, dice) {
    const [one, other] = [readPartName(parts, dice), readPartName(parts, dice)];
    const contents = [parts.get(one) ?? new Uint8Array(), parts.get(other) ?? new Uint8Array()] as const;
    return withPart(withPart(parts, one, contents[1]), other, contents[0]);
  },
  function empty(parts, dice) {
    return withPart(parts, readPartName(parts, dice), bytesOf(dice.oneOf(["", " ", "<a/>", '<?xml version="1.0"?>'])));
  },
  function changeBytes(parts, dice) {
    const name = readPartName(parts, dice);
    const content = Buffer.from(parts.get(name) ?? new Uint8Array());
    if (content.length === 0) return parts;
    const at = dice.below(content.length);
    content[at] = dice.below(256);
    return withPart(parts, name, new Uint8Array(dice.below(4) === 0 ? content.subarray(0, at) : content));
  },
  function swapTargets(parts, dice) {
    const name = nameIn(parts, dice, (one) => one.endsWith(".rels"));
    const text = textOf(parts.get(name));
    const targets = [...text.matchAll(/Target="([^"]*)"/g)].map(([, target]) => target ?? "");
    if (targets.length === 0) return parts;
    const [one, other] = [dice.oneOf(targets), dice.oneOf(targets)];
    const swapped = text.replaceAll(/Target="([^"]*)"/g, (whole, target: string) => {
      if (target === one) return `Target="${other}"`;
      return target === other ? `Target="${one}"` : whole;
    });
    return withPart(parts, name, bytesOf(swapped));
  },
];

/** Changes the parts of a workbook: mostly one part as XML, now and then which parts there are. */
export function mutateParts(parts: Parts, dice: Dice): Parts {
  if (dice.below(6) === 0) return dice.oneOf(CHANGES)(parts, dice);
  const name = readPartName(parts, dice);
  return withPart(parts, name, bytesOf(mutateXml(textOf(parts.get(name)), dice)));
}

/** Replaces a formula somewhere in the workbook. */
export function mutateFormulas(parts: Parts, dice: Dice): Parts {
  const isHome = (name: string): boolean =>
    isSheet(name) || (dice.below(4) === 0 && /workbook\.xml$|tables\//.test(name));
  for (let attempt = 0; attempt < 8; attempt += 1) {
    const name = nameIn(parts, dice, isHome);
    const changed = mutateFormula(textOf(parts.get(name)), dice);
    if (changed !== undefined) return withPart(parts, name, bytesOf(changed));
  }
  return parts;
}
