import { isWrittenSize } from "../../cells/index.js";
import type { ColumnContent, ListColumnKey, Measured } from "../lists/index.js";
import type { ColumnValues } from "./column-values.js";
import type { HeadingMeaning } from "./heading-words.js";

/** What the meaning of a heading is as a column of a list. */
export function contentOf(meaning: HeadingMeaning | null, state: string | null): ColumnContent | null {
  const isTwo = state === "found" || state === "left";
  switch (meaning) {
    case null:
      return state === "design"
        ? { key: "design" }
        : isTwo
          ? { key: state }
          : state === "now"
            ? { key: "airflow" }
            : null;
    case "airflow":
      return { key: state === "design" ? "design" : isTwo ? state : "airflow" };
    case "percent":
      return { key: isTwo ? (`${state}Percent` as const) : "percent" };
    case "verdict":
      return { key: isTwo ? (`${state}Verdict` as const) : "verdict" };
    case "reading":
      return state === "design" ? null : { key: "reading", state: isTwo ? state : "now", holds: "velocity" };
    case "sweep":
      return { key: "reading", state: "now", holds: "sweep" };
    case "seconds":
      return { key: "reading", state: "now", holds: "seconds" };
    case "average":
      return null;
    case "length":
      return { key: "width" };
    default:
      return { key: meaning };
  }
}

const MEASURES: Readonly<Partial<Record<ListColumnKey, Measured>>> = {
  ...{ width: "length", height: "length", size: "length", diameter: "length" },
  ...{ area: "area", freeArea: "area", effectiveArea: "area", factor: "ratio" },
  ...{ design: "airflow", airflow: "airflow", found: "airflow", left: "airflow" },
  ...{ percent: "percent", foundPercent: "percent", leftPercent: "percent" },
};

/** What the figures of a content measure; undefined where it holds words. */
export function measuredBy(content: ColumnContent): Measured | undefined {
  if (content.key === "reading") return content.holds === "seconds" ? "seconds" : "velocity";
  return MEASURES[content.key];
}

/** Whether what stands in a column can be what its heading says; an empty column can be anything. */
export function fits(content: ColumnContent, { numbers, texts, filledCount }: ColumnValues): boolean {
  if (filledCount === 0 || content.key === "size") return true;
  const measured = measuredBy(content);
  // A length may be written as on a grille, 12 1/2".
  const written = measured === "length" ? texts.filter(isWrittenSize).length : 0;
  return measured === undefined || numbers.length + written >= texts.length - written;
}
