import { helpers, type Model, registries } from "@odoo/o-spreadsheet";
import { Component, onMounted, onWillUnmount, useRef, xml } from "@odoo/owl";
import Chart from "chart.js/auto";
import { DRAWING_TAG, watchChanges } from "../../../engine/index.js";
import type { Drawing, Chart as FileChart } from "../../../xlsx/index.js";
import { restoreFocus } from "../restore-focus.js";
import type { Drawings } from "../stored-workbook.js";
import { chartConfig } from "./chart-config.js";
import { chartValues } from "./chart-values.js";
import { type DrawingWords, drawingWords } from "./drawing-words.js";

/** What lies over the cells of each workbook. */
const drawingsOf = new WeakMap<Model, () => Drawings>();

/** Gives a workbook's figures what is to be drawn in them. */
export function drawFigures(model: Model, drawings: () => Drawings): void {
  drawingsOf.set(model, drawings);
}

/** What is to be drawn in a figure of a workbook. */
export function drawingOf(model: Model, figureId: string): Drawing | undefined {
  return drawingsOf.get(model)?.()[figureId];
}

/** A chart of a file as chart.js draws it from the workbook's cells. */
export function configOf(model: Model, chart: FileChart) {
  const { getters } = model;
  return chartConfig(chart, {
    valuesOf: (data) => chartValues(model, data, chart.skipsHidden),
    shown: (value, format) => helpers.formatValue(value, { format, locale: getters.getLocale() }),
  });
}

/** What of a configuration changes with the cells. */
const stateOf = ({ data, options }: ReturnType<typeof chartConfig>): string => JSON.stringify([data, options?.plugins]);

class FileDrawing extends Component {
  static override template = xml`
    <div class="file-drawing" role="img" t-ref="root" t-att-aria-label="words.label">
      <img t-if="picture" t-att-src="picture" alt=""/>
      <div t-if="chart" class="file-chart"><canvas t-ref="canvas"/></div>
      <p t-if="words.note"><t t-esc="words.note"/></p>
    </div>`;
  static override props = ["*"];
  private readonly root = useRef("root");
  private readonly canvas = useRef("canvas");
  private readonly address = this.addressOfPicture();

  private get drawing(): Drawing | undefined {
    return drawingOf(this.model, this.figureId);
  }

  get words(): DrawingWords {
    return drawingWords(this.drawing);
  }

  get chart(): FileChart | null {
    return this.drawing?.content.kind === "chart" ? this.drawing.content.chart : null;
  }

  get picture(): string {
    return this.drawing?.content.kind === "picture" ? this.address : "";
  }

  private get model(): Model {
    return this.env["model"] as Model;
  }

  private get figureId(): string {
    return (this.props as { readonly figureUI: { readonly id: string } }).figureUI.id;
  }

  private addressOfPicture(): string {
    const content = this.drawing?.content;
    if (content?.kind !== "picture") return "";
    const address = URL.createObjectURL(new Blob([content.bytes as BlobPart], { type: content.mediaType }));
    onWillUnmount(() => URL.revokeObjectURL(address));
    return address;
  }

  override setup(): void {
    let stops: readonly (() => void)[] = [];
    onMounted(() => {
      stops = [this.leaveByEscape(), this.follow()];
    });
    onWillUnmount(() => {
      for (const stop of stops) stop();
    });
  }

  /** Escape goes back to the cells; returns how to stop. */
  private leaveByEscape(): () => void {
    const frame = this.root.el?.closest<HTMLElement>(".o-figure");
    const onKey = ({ key }: KeyboardEvent): void => {
      if (key !== "Escape") return;
      this.model.dispatch("SELECT_FIGURE", { figureId: null });
      restoreFocus(null);
    };
    frame?.addEventListener("keydown", onKey);
    return () => frame?.removeEventListener("keydown", onKey);
  }

  /** Draws the chart, and again when its cells change; returns how to stop. */
  private follow(): () => void {
    const { model, chart } = this;
    const element = this.canvas.el;
    if (chart === null || !(element instanceof HTMLCanvasElement)) return () => undefined;
    const first = configOf(model, chart);
    let state = stateOf(first);
    let frame = 0;
    const drawn = new Chart(element, first);
    const draw = (): void => {
      frame = 0;
      const next = configOf(model, chart);
      if (stateOf(next) === state) return;
      state = stateOf(next);
      drawn.data = next.data;
      drawn.options = next.options ?? {};
      drawn.update("none");
    };
    const schedule = (): void => {
      if (frame === 0) frame = requestAnimationFrame(draw);
    };
    const stop = watchChanges(model, schedule);
    return () => {
      stop();
      cancelAnimationFrame(frame);
      drawn.destroy();
    };
  }
}

/** Makes the grid show what a file has over its cells. Call it before a workbook is shown. */
export function registerDrawing(): void {
  if (registries.figureRegistry.contains(DRAWING_TAG)) return;
  registries.figureRegistry.add(DRAWING_TAG, {
    Component: FileDrawing as never,
    menuBuilder: () => [],
    borderWidth: 0,
  });
}
