import "@fontsource/roboto/400.css";
import "@fontsource/roboto/700.css";

/** The face in which the engine draws and measures cells; columns and rows are made for its width. */
const FACES = ["400 10px Roboto", "700 10px Roboto"];

/** One character of each part of the face from which the sheets' words come. */
const SHEET_CHARACTERS = "Aé±−≤Σ";

/**
 * Waits for the face of the cells, before a workbook is made: the engine remembers how wide a word was.
 *
 * It ships with the page, since a machine that lacks it would draw words wider than their columns.
 */
export async function loadCellFaces(): Promise<void> {
  // A sheet in another face is better than none.
  await Promise.allSettled(FACES.map((face) => document.fonts.load(face, SHEET_CHARACTERS)));
}
