/** What is open and typed in the field view, and not in the sheet yet. */
export interface FieldDraft {
  /** The outlet at hand, "" for the list of all. */
  readonly open: string;
  /** What stands in a field and is not written, by its cell: `Outlets!J9`. */
  readonly typed: Readonly<Record<string, string>>;
  /** When the clock of a sweep was started, ms; 0 while it stands. */
  readonly startedAt: number;
}

export type FieldAction =
  | { readonly type: "open"; readonly id: string }
  | { readonly type: "type"; readonly cell: string; readonly text: string }
  /** What was written; what was typed since then stays. */
  | { readonly type: "written"; readonly cell: string; readonly text: string }
  | { readonly type: "start sweep" | "stop sweep"; readonly at: number };

export const NOTHING_OPEN: FieldDraft = { open: "", typed: {}, startedAt: 0 };

export function fieldReducer(draft: FieldDraft, action: FieldAction): FieldDraft {
  switch (action.type) {
    case "open":
      return { ...draft, open: action.id };
    case "type":
      return { ...draft, typed: { ...draft.typed, [action.cell]: action.text } };
    case "written": {
      if (draft.typed[action.cell] !== action.text) return draft;
      const { [action.cell]: _, ...typed } = draft.typed;
      return { ...draft, typed };
    }
    case "start sweep":
      return { ...draft, startedAt: action.at };
    default:
      return { ...draft, startedAt: 0 };
  }
}
