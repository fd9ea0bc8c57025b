import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import type { DraftStore } from "../drafts/draft-store.js";
import type { JobContext } from "./job-context.js";
import type { StandingProblems } from "./standing-problems.js";

/** What every tab may use. */
export interface PaneTools {
  readonly host: InteractiveHost;
  readonly drafts: DraftStore;
  readonly job: JobContext;
  /** Is told what is wrong for as long as it lasts; it stands above the tabs. */
  readonly problems: StandingProblems;
  /**
   * Runs an action on the workbook, one after another. What it returns is said as good news; what it throws is said as an
   * alert, and nothing that was typed is lost.
   */
  readonly run: (action: () => Promise<string | null>) => Promise<void>;
  /** True while an action runs; buttons that start one then wait. */
  readonly isBusy: boolean;
}

export const PaneContext = createContext<PaneTools | null>(null);

export function usePane(): PaneTools {
  const tools = useContext(PaneContext);
  if (tools === null) throw new Error("A part of the pane is outside the pane.");
  return tools;
}
