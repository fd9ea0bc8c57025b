import { render } from "preact";
import type { InteractiveHost } from "../workbook/index.js";
import { Pane } from "./shell/pane.js";
import "./pane.css";
import "./controls/controls.css";

/** Puts the pane into an element, over the workbook of a host. */
export function mountPane(host: InteractiveHost, element: HTMLElement): void {
  element.classList.add("vs-pane");
  element.replaceChildren();
  render(<Pane host={host} />, element);
}
