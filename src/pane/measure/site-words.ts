import {
  type AnyDuctSection,
  flowAngle,
  inchesFromMillimeters,
  siteCheck,
  type UnitSystemName,
} from "../../core/index.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { wordsWithFigures } from "../controls/shown-figure.js";
import type { MeasureDraft } from "./measure-draft.js";

/** What is said of a traverse location from its straight lengths; null until both can be read. */
export function siteWords(
  { upstream, downstream }: Pick<MeasureDraft, "upstream" | "downstream">,
  section: AnyDuctSection,
  units: UnitSystemName,
): { readonly words: string; readonly isTooNear: boolean } | null {
  const inchesOf = (text: string) => {
    const read = readTypedNumber(text, 0, null);
    if ("error" in read || read.value === null) return null;
    return units === "si" ? inchesFromMillimeters(1000 * read.value) : 12 * read.value;
  };
  const [before, after] = [inchesOf(upstream), inchesOf(downstream)];
  if (before === null || after === null) return null;
  const { words, verdict } = siteCheck(section, before, after);
  return { words: wordsWithFigures(`Traverse location ${words}.`), isTooNear: verdict === "too near" };
}

/** What is said of how far the air leans: whether a traverse may be made, or what is wrong with what was typed. */
export function angleWords(
  text: string,
): { readonly error: string } | { readonly words: string } | Readonly<Record<string, never>> {
  const read = readTypedNumber(text, 0, 90);
  if ("error" in read) return read;
  if (read.value === null) return {};
  const { words, isSuitable } = flowAngle([read.value]);
  const said = wordsWithFigures(`Flow ${words}.`);
  return isSuitable ? { words: said } : { error: said };
}
