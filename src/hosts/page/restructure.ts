import type { StructureEdit } from "../../xlsx/index.js";
import { activate } from "./activate-sheet.js";
import { cellEdits } from "./file/cell-edits.js";
import { type BesideCells, besideCells, changesSince } from "./file/changes-since.js";
import { bytesOnDisk, type PageFile } from "./file/page-file.js";
import type { PageContext } from "./page-context.js";
import { fileNameOf, newName, whole } from "./save-file.js";
import type { WorkbookView } from "./workbook-view.js";

/** What the page needs of a change: whether the person let it happen, and what does not follow. */
export interface Restructuring {
  readonly isDone: boolean;
  readonly notices: readonly string[];
}

interface Base {
  readonly file: PageFile;
  /** Entries that are not in the file's bytes yet. */
  readonly edits: ReturnType<typeof cellEdits>;
  /** What else is not in its bytes yet. */
  readonly beside: Partial<BesideCells>;
}

/** The file in which rows or sheets change: the one that is open, or a new one where there is none, or none it can be. */
async function baseOf(context: PageContext, view: WorkbookView): Promise<Base | null> {
  const file = view.file();
  if (file !== null) {
    const current = await view.exportedInSlices();
    const since = changesSince(file.baseline, current, view.movedSheetIds, file.entered);
    const { structure, looks, cells } = since;
    if (structure.length === 0 && looks.length > 0) {
      const goOn = "Go on without them";
      const question = `What was changed on this page beside entries would be lost: ${looks.join("; ")}.`;
      if ((await context.messages.choose(question, [goOn, "Cancel"])) !== goOn) return null;
    }
    if (structure.length === 0) return { file, edits: cellEdits(view.model, cells), beside: besideCells(since) };
  }
  const { bytes, current } = await whole(context, view);
  const name = file === null ? fileNameOf(view) : newName(file.name);
  return {
    file: { name, bytes, baseline: current, kept: [], words: file?.words ?? {}, handle: null },
    edits: [],
    beside: {},
  };
}

async function restructured(context: PageContext, view: WorkbookView, edit: StructureEdit) {
  const base = await baseOf(context, view);
  if (base === null) return null;
  const { file, edits, beside } = base;
  return { file, ...(await context.run("restructure", file.bytes, file.name, edits, edit, beside)) };
}

/**
 * Changes rows or sheets of the open workbook in the bytes of its file, entries that are not saved yet included, and shows it
 * anew. Nothing is written to the disk: the person saves.
 *
 * @param context - Knows the workbook in view
 * @param edit - What changes
 * @throws {WorkbookFileError} Where something cannot follow; the workbook in view is as it was
 */
export async function restructure(context: PageContext, edit: StructureEdit): Promise<Restructuring> {
  const view = context.view();
  if (!view.finishEntry()) return { isDone: false, notices: [] };
  const front = view.model.getters.getSheetName(view.model.getters.getActiveSheetId());
  // The file with its rows changed takes the place of what is in view, which from here on nothing may be typed into.
  const letGo = context.hold();
  const made = await restructured(context, view, edit).finally(letGo);
  if (made === null) return { isDone: false, notices: [] };
  const { file, bytes, kept, conversion, notices } = made;
  const identity = view.identity();
  const next = await context.show(
    {
      ...(identity === null ? {} : { identity }),
      title: view.title(),
      data: conversion.data,
      movedSheetIds: [],
      protectedSheetIds: conversion.protectedSheetIds,
      isChanged: true,
      file: null,
      drawings: conversion.drawings,
    },
    true,
  );
  const words = { ...file.words, ...conversion.words };
  const onDisk = bytesOnDisk(file);
  // The grid shows the file anew, so that no cell looks otherwise than it asks.
  await next.setFile({ ...file, bytes, kept, words, baseline: next.exported(), entered: {}, onDisk }, true);
  const { getters } = next.model;
  const renamed = edit.kind === "renameSheet" && edit.sheet === front ? edit.name : front;
  const sheetId = getters.getSheetIdByName(renamed);
  if (sheetId !== undefined) activate(next.model, sheetId);
  return { isDone: true, notices };
}
