import type { FunctionComponent } from "preact";

/** One tab of the pane. */
export interface Tab {
  /** Part of ids and of the kept choice: small letters. */
  readonly id: string;
  readonly label: string;
  /** In place of the label, where it says more: it begins with the same word. */
  readonly Label?: FunctionComponent;
  readonly Panel: FunctionComponent;
}
