import { toText } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { eachValue } from "./each-value.js";

function textsOf(value: Value, context: Context): readonly string[] {
  const texts: string[] = [];
  eachValue(value, context, (scalar) => texts.push(toText(scalar)));
  return texts;
}

interface Mark {
  readonly at: number;
  readonly length: number;
}

/** Where any of some marks stand in a text, from left to right. */
function marksIn(text: string, wanted: readonly string[], isAnyCase: boolean, context: Context): readonly Mark[] {
  const [given, marks] = isAnyCase ? [text.toLowerCase(), wanted.map((mark) => mark.toLowerCase())] : [text, wanted];
  if (marks.some((mark) => mark === "")) throw ERROR.value;
  const found: Mark[] = [];
  let at = 0;
  while (at < given.length) {
    context.book.budget.spend(marks.length);
    const mark = marks.find((each) => given.startsWith(each, at));
    if (mark === undefined) at += 1;
    else {
      found.push({ at, length: mark.length });
      at += mark.length;
    }
  }
  return found;
}

function split(
  text: string,
  marks: readonly string[],
  skipsEmpty: boolean,
  isAnyCase: boolean,
  context: Context,
): readonly string[] {
  const pieces: string[] = [];
  let from = 0;
  for (const { at, length } of marksIn(text, marks, isAnyCase, context)) {
    pieces.push(text.slice(from, at));
    from = at + length;
  }
  pieces.push(text.slice(from));
  return skipsEmpty ? pieces.filter((piece) => piece !== "") : pieces;
}

type Half = "before" | "after";

function half(
  which: Half,
  context: Context,
  text: string,
  mark: Value,
  instance: number,
  isAnyCase: boolean,
  endCounts: boolean,
  missing: Scalar | undefined,
): Scalar {
  const nth = Math.trunc(instance);
  if (nth === 0 || (text !== "" && Math.abs(nth) > text.length)) throw ERROR.value;
  const wanted = textsOf(mark, context);
  if (wanted.includes("")) return nth > 0 === (which === "after") ? text : "";
  const found = [...marksIn(text, wanted, isAnyCase, context)];
  if (endCounts) found.splice(nth > 0 ? found.length : 0, 0, { at: nth > 0 ? text.length : 0, length: 0 });
  const one = found.at(nth > 0 ? nth - 1 : nth);
  if (one === undefined) return missing === undefined ? ERROR.missing : missing;
  return which === "before" ? text.slice(0, one.at) : text.slice(one.at + one.length);
}

export const TEXT_SPLIT = [
  ...(["before", "after"] as const).map((which) =>
    fn(
      `TEXT${which.toUpperCase()}`,
      "t r n~ b~ b~ e~",
      (context, text, mark, instance = 1, isAnyCase = false, endCounts = false, missing) =>
        half(which, context, text, mark, instance, isAnyCase, endCounts, missing),
    ),
  ),
  fn(
    "TEXTSPLIT",
    "t r~ r~ b~ b~ e~",
    (context, text, columns, rows, skipsEmpty = false, isAnyCase = false, padding = ERROR.missing) => {
      if (columns === undefined && rows === undefined) throw ERROR.value;
      const lines = rows === undefined ? [text] : split(text, textsOf(rows, context), skipsEmpty, isAnyCase, context);
      const cells = lines.map((line) =>
        columns === undefined ? [line] : split(line, textsOf(columns, context), skipsEmpty, isAnyCase, context),
      );
      const width = Math.max(1, ...cells.map((row) => row.length));
      return cells.map((row): Scalar[] => [...row, ...new Array<Scalar>(width - row.length).fill(padding)]);
    },
  ),
];
