import { type Model, Spreadsheet, stores } from "@odoo/o-spreadsheet";
import templates from "@odoo/o-spreadsheet/dist/o_spreadsheet.xml";
import { App, Component, xml } from "@odoo/owl";
import * as charts from "chart.js";
import Chart from "chart.js/auto";
import "bootstrap/dist/css/bootstrap.min.css";
import "font-awesome/css/font-awesome.min.css";
import "@odoo/o-spreadsheet/dist/o_spreadsheet.css";
import type { Messages } from "./messages.js";

/** The engine's link display asks an outside address for a picture of the linked site. */
const OUTSIDE_PICTURE = /<img\b[^>]*t-attf-src="https?:[^>]*\/>/g;

/** The engine looks for the chart library, with its parts by name, on the window. */
function offerCharts(): void {
  Object.assign(window, { Chart: Object.assign(Chart, charts) });
}

/**
 * Shows a workbook in an element.
 *
 * @returns How to take it down, before another workbook is shown
 */
export async function showWorkbook(model: Model, element: HTMLElement, messages: Messages): Promise<() => void> {
  offerCharts();
  class Root extends Component {
    static components = { Spreadsheet };
    static override props = {};
    static override template =
      xml`<Spreadsheet model="model" notifyUser="notifyUser" raiseError="raiseError" askConfirmation="askConfirmation"/>`;
    model = model;
    notifyUser = messages.notifyUser;
    raiseError = messages.raiseError;
    askConfirmation = messages.askConfirmation;
    override setup(): void {
      stores.useStoreProvider();
    }
  }
  const app = new App(Root);
  app.addTemplates(templates.replace(OUTSIDE_PICTURE, ""));
  await app.mount(element);
  return () => app.destroy();
}
