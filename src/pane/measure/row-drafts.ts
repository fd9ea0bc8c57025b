import type { BlockAddress, SelectedOutlet } from "../../workbook/index.js";
import { restoredDraft } from "../drafts/restored-draft.js";
import { EMPTY_MEASUREMENT, type MeasureDraft, readingsOf } from "./measure-draft.js";
import { type MeasureAction, measureReducer } from "./measure-reducer.js";

/** A measurement of one row, and how to find back to it. */
export interface RowDraft {
  readonly label: string;
  readonly cell: BlockAddress;
  readonly draft: MeasureDraft;
}

/** Every measurement that was typed: each belongs to a row, or to none. It survives JSON. */
export interface MeasureDrafts {
  readonly free: MeasureDraft;
  /** By the id of the selected outlet. */
  readonly rows: Readonly<Record<string, RowDraft>>;
}

export const NO_MEASUREMENTS: MeasureDrafts = { free: EMPTY_MEASUREMENT, rows: {} };

/** Where a draft belongs; null where no row of a list is selected. */
export type DraftPlace = SelectedOutlet | null;

export type RowDraftsAction =
  | { readonly type: "measure"; readonly place: DraftPlace; readonly action: MeasureAction }
  /** Takes what was measured for another row, or for none, to this one; the person asked for it. */
  | { readonly type: "use here"; readonly place: DraftPlace; readonly from: string | null };

/** What a row starts from: nothing but where its outlet is measured. */
function startOf(place: DraftPlace): MeasureDraft {
  return place === null || place.measured === null ? EMPTY_MEASUREMENT : { ...EMPTY_MEASUREMENT, kind: place.measured };
}

function keptRow({ rows }: MeasureDrafts, id: string): RowDraft | undefined {
  return Object.hasOwn(rows, id) ? rows[id] : undefined;
}

/** The draft that belongs to a place; a row for which nothing was typed starts empty. */
export function draftOf(drafts: MeasureDrafts, place: DraftPlace): MeasureDraft {
  if (place === null) return restoredDraft(drafts.free, EMPTY_MEASUREMENT);
  return restoredDraft(keptRow(drafts, place.id)?.draft, startOf(place));
}

function withDraft(drafts: MeasureDrafts, place: DraftPlace, draft: MeasureDraft): MeasureDrafts {
  if (place === null) return { ...drafts, free: draft };
  const { id, label, cell } = place;
  // What is in the sheet stands there: of other rows only what is not yet in it is kept.
  const others = Object.entries(drafts.rows).filter(([other, row]) => other !== id && !row.draft.isInSheet);
  return { ...drafts, rows: { ...Object.fromEntries(others), [id]: { label, cell, draft } } };
}

function without(drafts: MeasureDrafts, id: string | null): MeasureDrafts {
  if (id === null) return { ...drafts, free: EMPTY_MEASUREMENT };
  return { ...drafts, rows: Object.fromEntries(Object.entries(drafts.rows).filter(([other]) => other !== id)) };
}

/** The drafts after an action; only the draft of the place changes. */
export function rowDraftsReducer(drafts: MeasureDrafts, action: RowDraftsAction): MeasureDrafts {
  const { place } = action;
  if (action.type === "measure") {
    return withDraft(drafts, place, measureReducer(draftOf(drafts, place), action.action));
  }
  const moved = action.from === null ? drafts.free : keptRow(drafts, action.from)?.draft;
  if (moved === undefined) return drafts;
  return withDraft(without(drafts, action.from), place, restoredDraft(moved, EMPTY_MEASUREMENT));
}

/** Readings that are in no cell yet. */
export interface WaitingDraft {
  /** Null for those of no row. */
  readonly id: string | null;
  readonly cell: BlockAddress | null;
  /** Such as “S1: 5 points not yet in the sheet.” */
  readonly words: string;
}

const counted = (count: number, noun: string) => (count === 0 ? [] : [`${count} ${noun}${count === 1 ? "" : "s"}`]);

/** Counts the readings of a draft that are in no cell yet: “5 points”; null where there is none. */
export function unsavedWords(kept: MeasureDraft): string | null {
  const draft = restoredDraft(kept, EMPTY_MEASUREMENT);
  if (draft.isInSheet) return null;
  const filled = Object.values(readingsOf(draft)).filter((text) => text !== "");
  const isTyping = draft.typed.trim() !== "" && !filled.includes(draft.typed.trim());
  const sweeps = draft.sweeps.filter(({ velocity, seconds }) => velocity !== "" || seconds !== "").length;
  const parts = [
    ...counted(filled.length + (isTyping ? 1 : 0), "point"),
    ...counted(sweeps, "sweep"),
    ...(draft.sweepStartedAt === 0 ? [] : ["a sweep still running"]),
  ];
  return parts.length === 0 ? null : parts.join(", ");
}

/** What was measured elsewhere than at this place and is in no cell yet. */
export function waitingDrafts(drafts: MeasureDrafts, place: DraftPlace): readonly WaitingDraft[] {
  const rows = Object.entries(drafts.rows).flatMap(([id, { label, cell, draft }]): readonly WaitingDraft[] => {
    const words = id === place?.id ? null : unsavedWords(draft);
    return words === null ? [] : [{ id, cell, words: `${label}: ${words} not yet in the sheet.` }];
  });
  const free = place === null ? null : unsavedWords(drafts.free);
  return free === null ? rows : [...rows, { id: null, cell: null, words: `No row: ${free} not yet in the sheet.` }];
}
