import type { Finding } from "../../workbook/finding.js";
import type { JobFigures } from "../../workbook/rollup/index.js";
import type { ReadFile } from "./roll-up-files.js";

/** A roll-up on its way: what came in so far. */
export interface RollUpState {
  readonly status: "idle" | "reading" | "stopped" | "done";
  readonly fileCount: number;
  readonly readCount: number;
  /** The file that came in last. */
  readonly latest: string;
  readonly figures: readonly JobFigures[];
  readonly findings: readonly Finding[];
}

export type RollUpAction =
  | { readonly type: "started"; readonly fileCount: number }
  | { readonly type: "came in"; readonly files: readonly { readonly name: string; readonly read: ReadFile }[] }
  | { readonly type: "stopped" };

export const NO_ROLL_UP: RollUpState = {
  status: "idle",
  fileCount: 0,
  readCount: 0,
  latest: "",
  figures: [],
  findings: [],
};

export function rollUpReducer(state: RollUpState, action: RollUpAction): RollUpState {
  switch (action.type) {
    case "started":
      return { ...NO_ROLL_UP, status: action.fileCount === 0 ? "idle" : "reading", fileCount: action.fileCount };
    case "came in": {
      if (state.status !== "reading") return state;
      const readCount = state.readCount + action.files.length;
      return {
        ...state,
        status: readCount >= state.fileCount ? "done" : "reading",
        readCount,
        latest: action.files.at(-1)?.name ?? state.latest,
        figures: [...state.figures, ...action.files.flatMap(({ read }) => read.figures)],
        findings: [...state.findings, ...action.files.flatMap(({ read }) => read.findings)],
      };
    }
    case "stopped":
      return state.status === "reading" ? { ...state, status: "stopped" } : state;
  }
}
