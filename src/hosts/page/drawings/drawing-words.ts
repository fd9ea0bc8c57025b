import type { Drawing } from "../../../xlsx/index.js";

/** What is said of something that lies over the cells. */
export interface DrawingWords {
  /** What it is, for whoever cannot see it. */
  readonly label: string;
  /** What stands in its frame; empty where it is drawn whole. */
  readonly note: string;
}

/** Says what a drawing is, and what of it is not drawn; undefined for one that the file does not hold. */
export function drawingWords(drawing: Drawing | undefined): DrawingWords {
  if (drawing === undefined) {
    return { label: "Not in this file", note: "A chart or picture was here. This file was made anew without it." };
  }
  const { content, description, name } = drawing;
  const told = description === "" ? name : description;
  if (content.kind === "picture") return { label: told === "" ? "Picture" : told, note: "" };
  if (content.kind === "chart") {
    const { title, leftOut } = content.chart;
    const label = [title === "" ? "Chart" : `Chart: ${title}`, description].filter((text) => text !== "").join(". ");
    return { label, note: leftOut.length === 0 ? "" : `Drawn here without ${leftOut.join(" and ")}.` };
  }
  const what = `${content.what.charAt(0).toUpperCase()}${content.what.slice(1)}`;
  const note = `${what}. It is not drawn here; the file keeps it.${content.text.trim() === "" ? "" : `\n${content.text}`}`;
  return { label: [what, told].filter((text) => text !== "").join(": "), note };
}
