import type { FunctionComponent } from "preact";

/** One tab of the pane. */
export interface Tab {
  /** Part of ids and of the kept choice: small letters. */
  readonly id: string;
  readonly label: string;
  readonly Panel: FunctionComponent;
}
