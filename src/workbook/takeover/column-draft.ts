import { writtenSize } from "../../cells/index.js";
import type { ColumnContent, ListColumnKey, MappedUnitName } from "../lists/index.js";
import { contentOf, fits } from "./column-content.js";
import type { ColumnValues } from "./column-values.js";
import { contentWord } from "./content-words.js";
import type { ColumnHeading } from "./heading-cells.js";

/** A column while it is looked at: what it is taken for changes with what the others are. */
export interface Draft {
  readonly heading: ColumnHeading;
  readonly values: ColumnValues;
  content: ColumnContent | null;
  reason: string;
  question: string;
  unit: MappedUnitName | null;
}

export const quotedHeading = (shown: string) => (shown === "" ? "no heading" : `heading “${shown}”`);

const isSizeText = (text: string) => writtenSize(text, "ip") !== undefined;

/** Takes a heading with the values below it for what both agree on. */
export function drafted(heading: ColumnHeading, values: ColumnValues): Draft {
  const { read, shown } = heading;
  const draft: Draft = { heading, values, content: null, reason: "", question: "", unit: null };
  const sizes = values.texts.filter(isSizeText).length;
  const isSizes = sizes > 0 && sizes * 2 >= values.filledCount;
  if (read !== undefined) {
    draft.content = contentOf(read.meaning, read.state);
    draft.reason = quotedHeading(shown);
    if (read.meaning === null && read.state !== null && draft.content !== null && read.unit === null) {
      draft.reason += ", and numbers below it";
    }
  }
  const key = draft.content?.key;
  if (isSizes && (key === undefined || key === "width" || key === "diameter" || key === "area")) {
    draft.content = { key: "size" };
    draft.reason = `${quotedHeading(shown)}, and values such as “${values.texts.find(isSizeText)}”`;
    return draft;
  }
  // "Area" over Kitchen and Hall is the area served; "Air" over supply and return its kind.
  if (key === "area" && values.texts.length > values.numbers.length) {
    draft.content = { key: "room" };
    draft.reason += ", and words below it";
    draft.question = "Is this the room?";
    return draft;
  }
  if (draft.content !== null && key !== undefined && !fits(draft.content, values)) {
    draft.content = null;
    draft.reason += `, but ${values.texts.length === 0 ? "no numbers" : `words such as “${values.texts[0]}”`} below it`;
    return draft;
  }
  if (key === "kind" && values.numbers.length > values.texts.length) draft.content = { key: "airflow" };
  if (key === "size" && values.numbers.length > values.texts.length) {
    draft.question = "It holds one number. Is that a width, or a diameter?";
    draft.content = { key: "diameter" };
  }
  if (draft.content !== null && read !== undefined && !read.isWhole)
    draft.question = `Is this ${contentWord(draft.content)}?`;
  return draft;
}

/** Headings that number the rows rather than name them. */
const WEAK_TAG = /^(?:#|no\.?|nr\.?|n[.º°]*|item|number|pos\.?|position|id|mark)$/i;

export function contentKey(content: ColumnContent): string {
  return content.key === "reading" ? "reading" : content.key;
}

/** Of two columns with one meaning one counts; the other is asked for. */
export function withoutRepeats(drafts: readonly Draft[]): void {
  const byKey = new Map<string, Draft[]>();
  for (const draft of drafts) {
    if (draft.content === null || draft.content.key === "reading") continue;
    const same = byKey.get(contentKey(draft.content)) ?? [];
    byKey.set(contentKey(draft.content), [...same, draft]);
  }
  for (const [key, same] of byKey) {
    if (same.length < 2) continue;
    const [best] = [...same].sort((one, other) => rank(key, other) - rank(key, one));
    const isClear = same.filter((one) => rank(key, one) === rank(key, best as Draft)).length === 1;
    for (const draft of same) {
      if (draft === best) {
        if (!isClear && key !== "outlet")
          draft.question = `Another column says the same. Is this ${contentWord({ key: key as ListColumnKey })}?`;
        continue;
      }
      draft.content = null;
      draft.reason += `, which column ${best?.heading.shown || "another"} says as well`;
      draft.question = isClear || key === "outlet" ? "" : "What does this column hold?";
    }
  }
}

function rank(key: string, { heading, values, content }: Draft): number {
  const isWhole = heading.read?.isWhole === true ? 1 : 0;
  if (key === "outlet") return (WEAK_TAG.test(heading.shown) ? 0 : 4) + (values.texts.length > 0 ? 2 : 0) + isWhole;
  if (content?.key === "airflow") return (values.formulaCount > 0 ? 2 : 0) + isWhole;
  return isWhole * 2 + (values.filledCount > 0 ? 1 : 0);
}
