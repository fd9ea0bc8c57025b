import { render } from "preact";
import type { InteractiveHost } from "../workbook/index.js";
import { followTheme } from "./shell/follow-theme.js";
import { Pane } from "./shell/pane.js";
import "./pane.css";
import "./controls/controls.css";

/**
 * Puts the pane into an element, over the workbook of a host.
 *
 * @param isHostDark - Whether the host is dark; null where it does not say
 */
export function mountPane(host: InteractiveHost, element: HTMLElement, isHostDark: () => boolean | null): void {
  followTheme(isHostDark);
  element.classList.add("vs-pane");
  element.replaceChildren();
  render(<Pane host={host} />, element);
}
