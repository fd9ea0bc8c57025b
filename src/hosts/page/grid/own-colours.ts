import { stores } from "@odoo/o-spreadsheet";

/** The engine's colours of the headings of rows and columns, and ours; it draws them on a canvas, where no style reaches. */
const HEADER_COLOURS: ReadonlyMap<string, string> = new Map([
  ["#F8F9FA", "#e6eef0"],
  ["#E8EAED", "#c9dde2"],
  ["#595959", "#17414f"],
  ["#666666", "#33505b"],
  ["#C0C0C0", "#b7c4ca"],
]);

interface Drawing {
  readonly ctx: CanvasRenderingContext2D;
}

/** Draws with other colours as long as something is drawn. */
function inOurColours(ctx: CanvasRenderingContext2D, draw: () => void): void {
  const kinds = ["fillStyle", "strokeStyle"] as const;
  for (const kind of kinds) {
    const own = Object.getOwnPropertyDescriptor(CanvasRenderingContext2D.prototype, kind);
    if (own?.set === undefined || own.get === undefined) continue;
    const { get, set } = own;
    Object.defineProperty(ctx, kind, {
      configurable: true,
      get: () => get.call(ctx) as string,
      set: (colour: unknown) => set.call(ctx, HEADER_COLOURS.get(String(colour)) ?? colour),
    });
  }
  try {
    draw();
  } finally {
    for (const kind of kinds) delete (ctx as unknown as Record<string, unknown>)[kind];
  }
}

let isRegistered = false;

/** Gives the headings of rows and columns this page's colours. */
export function registerColours(): void {
  if (isRegistered) return;
  isRegistered = true;
  const renderer = stores.GridRenderer.prototype as unknown as { drawHeaders(drawing: Drawing): void };
  const { drawHeaders } = renderer;
  renderer.drawHeaders = function (drawing) {
    inOurColours(drawing.ctx, () => drawHeaders.call(this, drawing));
  };
}
