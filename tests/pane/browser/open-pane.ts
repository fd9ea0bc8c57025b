import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { serveFolders } from "../../../src/tools/excel-bridge/serve-folders.js";
import { launchBrowser } from "../../../src/tools/launch-browser.js";
import { HostError, type InteractiveHost } from "../../../src/workbook/index.js";
import { builtPane } from "./built-pane.js";

/** What a call of the host gives, in a form that crosses into the page. */
export type CalledHost =
  | { readonly value: unknown }
  | { readonly entries: readonly (readonly [unknown, unknown])[] }
  | { readonly bytes: readonly number[] }
  | { readonly hostError: string };

async function called(host: InteractiveHost, name: string, args: readonly unknown[]): Promise<CalledHost> {
  try {
    const method = (host as unknown as Record<string, (...given: readonly unknown[]) => Promise<unknown>>)[name];
    const value = await method?.(...args);
    if (value instanceof Map) return { entries: [...value] };
    return value instanceof Uint8Array ? { bytes: [...value] } : { value };
  } catch (thrown) {
    if (thrown instanceof HostError) return { hostError: thrown.message };
    throw thrown;
  }
}

/** The narrow width that Excel gives a pane at first; `PANE_WIDTH` names another, for pictures of it. */
const VIEWPORT = { width: Number(process.env["PANE_WIDTH"] ?? 320), height: 760 };

/** The pane as built, in a real browser. */
export interface BuiltPane {
  /** Opens it over a host in a browser that has never seen it, and waits for its tabs. */
  open(host: InteractiveHost, options?: BrowserContextOptions): Promise<Page>;
  /** The same, over a host whose workbook does not come. */
  openWithoutTabs(host: InteractiveHost): Promise<Page>;
  close(): Promise<void>;
}

/** Serves the built pane to a browser for the tests of a file. */
export async function buildPane(): Promise<BuiltPane> {
  const served = await serveFolders({ "/": await builtPane() });
  const browser: Browser = await launchBrowser();
  async function openPage(host: InteractiveHost, options: BrowserContextOptions): Promise<Page> {
    const context = await browser.newContext({ viewport: VIEWPORT, ...options });
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    await page.exposeFunction("callHost", (name: string, args: readonly unknown[]) => called(host, name, args));
    const given = { hostKind: host.kind, hostMethods: Object.keys(host).filter((name) => name !== "kind") };
    await page.addInitScript((known) => Object.assign(window, known), given);
    await host.watch((sheet) => {
      if (!page.isClosed()) {
        void page
          .evaluate((name) => (window as unknown as { cellsChanged(sheet: string): void }).cellsChanged(name), sheet)
          .catch(() => undefined);
      }
    });
    await host.watchSelection(() => {
      if (!page.isClosed()) {
        void page
          .evaluate(() => (window as unknown as { selectionMoved(): void }).selectionMoved())
          .catch(() => undefined);
      }
    });
    await page.goto(served.address);
    return page;
  }
  return {
    async open(host, options = {}) {
      const page = await openPage(host, options);
      await page.locator("[role=tabpanel]").waitFor();
      return page;
    },
    openWithoutTabs: (host) => openPage(host, {}),
    async close() {
      await browser.close();
      await served.close();
    },
  };
}

/** Opens a tab of the pane by its name. */
export async function openTab(page: Page, name: string): Promise<void> {
  const tab = page.getByRole("tab", { name: new RegExp(`^${name}`) });
  await page.getByRole("tab", { selected: true }).focus();
  while ((await tab.getAttribute("aria-selected")) !== "true") await page.keyboard.press("ArrowRight");
}
