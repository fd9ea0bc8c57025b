import type { AskedDetail } from "./job-fields.js";

/** What stands in fields and is not stated yet: being typed, wrong, or refused by the workbook. */
export interface StartDraft {
  readonly texts: Readonly<Partial<Record<AskedDetail, string>>>;
}

export type StartAction =
  | { readonly type: "typed"; readonly detail: AskedDetail; readonly text: string }
  | { readonly type: "stated"; readonly detail: AskedDetail };

export const EMPTY_START: StartDraft = { texts: {} };

export function startReducer({ texts }: StartDraft, action: StartAction): StartDraft {
  if (action.type === "typed") return { texts: { ...texts, [action.detail]: action.text } };
  return { texts: Object.fromEntries(Object.entries(texts).filter(([detail]) => detail !== action.detail)) };
}
