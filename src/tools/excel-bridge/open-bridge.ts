import { join } from "node:path";
import type { Browser, BrowserContext, BrowserContextOptions, Page } from "playwright-core";
import { OFFICE_JS } from "../addin/addin-bundle.js";
import { launchBrowser } from "../launch-browser.js";
import {
  type BridgeWindow,
  type FunctionCall,
  installBridge,
  type RichRequest,
  type SentBack,
  type WorkbookEvent,
} from "./page-side.js";
import { serveFolders } from "./serve-folders.js";

/** What an Excel of the last years on Windows says of itself. */
const REQUIREMENT_SETS = {
  ExcelApi: "1.17",
  SharedRuntime: "1.1",
  CustomFunctionsRuntime: "1.4",
  CustomFunctions: "1.9",
  RibbonApi: "1.1",
};

/** Makes office.js take the page for one inside Excel on Windows. */
const HOST_QUERY = "?_host_Info=Excel$Win32$16.01$en-US$$$$3";

/** One window of Excel with a workbook in it. */
export interface WindowOptions {
  readonly requirementSets?: Readonly<Record<string, string>>;
  /** Answers what the page asks of the workbook; without it every answer is empty. */
  readonly answer?: (request: RichRequest) => Promise<object>;
  readonly widthPx?: number;
  /** What Excel hands over when the page asks for the whole workbook as a file. */
  readonly workbookFile?: Uint8Array;
  /** Where the workbook lies; `C:\\Book1.xlsx` where nothing is said. */
  readonly place?: string;
  readonly isDark?: boolean;
  /** Prepares the page before it loads anything. */
  readonly prepare?: (page: Page) => Promise<void>;
}

export interface ExcelBridgeOptions extends WindowOptions {
  /** The built add-in, with office.js expected at office-js/office.js. */
  readonly folder: string;
}

export interface ServedAddinOptions extends WindowOptions {
  /** Where somebody serves the add-in as it was built, by a certificate of any standing. */
  readonly address: string;
}

const OFFICE_JS_FOLDER = "node_modules/@microsoft/office-js/dist";

export interface ExcelBridge {
  readonly page: Page;
  /** Sends calls as one batch, as Excel does, and returns what went back for each. */
  call(calls: readonly Omit<FunctionCall, "id">[]): Promise<CalledBatch>;
  /** The requests that Excel would have received so far. */
  requests(): Promise<readonly RichRequest[]>;
  /** Tells the page of something that happened in the workbook. */
  raise(event: WorkbookEvent): Promise<void>;
  /** Opens another window of the same Excel, on the same computer, with a workbook of its own. */
  openWindow(options: WindowOptions): Promise<ExcelBridge>;
  /** Closes the window; the first one also ends Excel. */
  close(): Promise<void>;
}

export interface CalledBatch {
  /** What the runtime handed back, call by call. */
  readonly results: readonly unknown[];
  /** From the batch's arrival to its last result [ms]. */
  readonly elapsedMs: number;
  /** In how many messages the results went back. */
  readonly messages: number;
}

const LONGEST_WAIT_MS = 60_000;

async function openWindow(context: BrowserContext, address: string, options: WindowOptions): Promise<ExcelBridge> {
  const page = await context.newPage();
  await page.setViewportSize({ width: options.widthPx ?? 320, height: 640 });
  const answeredBy = options.answer ? "answerAsExcel" : null;
  if (options.answer) await page.exposeFunction("answerAsExcel", options.answer);
  await options.prepare?.(page);
  await page.addInitScript(installBridge, {
    requirementSets: options.requirementSets ?? REQUIREMENT_SETS,
    answeredBy,
    workbookFile: options.workbookFile === undefined ? null : [...options.workbookFile],
    place: options.place ?? "C:\\Book1.xlsx",
    isDark: options.isDark ?? null,
  });
  await page.goto(`${address}/pane.html${HOST_QUERY}`);
  await page.waitForFunction(() => typeof CustomFunctions === "object" && typeof Office === "object");
  await page.evaluate(() => Office.onReady());
  return {
    page,
    call: caller(page),
    requests: () => page.evaluate(readRequests),
    raise: (event) =>
      page.evaluate((raised) => (window as unknown as BridgeWindow).simulatedExcel.raise(raised), event),
    openWindow: (further) => openWindow(context, address, further),
    close: () => page.close(),
  };
}

/**
 * Opens the built add-in in a real browser with the real office.js over a simulated Excel.
 *
 * It shows what the add-in's side sends for what Excel sends. It is no Excel: nothing is calculated or drawn there.
 */
export async function openBridge(options: ExcelBridgeOptions): Promise<ExcelBridge> {
  const served = await serveFolders({ "/office-js/": OFFICE_JS_FOLDER, "/": options.folder });
  return openIn(served.address, options, {}, () => served.close());
}

/** Opens the same over an add-in that is served somewhere: what it loads from Microsoft comes from the package instead. */
export function openServedAddin({ address, ...options }: ServedAddinOptions): Promise<ExcelBridge> {
  const prepare = async (page: Page) => {
    const atMicrosoft = OFFICE_JS.replace(/[^/]*$/, "");
    await page.route(`${atMicrosoft}**`, (route) => {
      const file = new URL(route.request().url()).href.slice(atMicrosoft.length).replace(/[?#].*$/, "");
      return route.fulfill({ path: join(OFFICE_JS_FOLDER, file) });
    });
    await options.prepare?.(page);
  };
  return openIn(address, { ...options, prepare }, { ignoreHTTPSErrors: true }, async () => undefined);
}

async function openIn(
  address: string,
  options: WindowOptions,
  contextOptions: BrowserContextOptions,
  afterwards: () => Promise<void>,
): Promise<ExcelBridge> {
  const browser: Browser = await launchBrowser();
  const close = async () => {
    await browser.close();
    await afterwards();
  };
  try {
    const context = await browser.newContext(contextOptions);
    return { ...(await openWindow(context, address, options)), close };
  } catch (cause) {
    await close();
    throw cause;
  }
}

function readRequests(): readonly RichRequest[] {
  return (window as unknown as BridgeWindow).simulatedExcel.requests;
}

function caller(page: Page): ExcelBridge["call"] {
  let nextId = 1;
  return async (calls) => {
    const numbered = calls.map((call) => ({ ...call, id: nextId++ }));
    const before = await page.evaluate(() => (window as unknown as BridgeWindow).simulatedExcel.resultMessages);
    const startMs = await page.evaluate(
      (sent) => (window as unknown as BridgeWindow).simulatedExcel.call(sent),
      numbered,
    );
    const ids = numbered.map(({ id }) => id);
    await page.waitForFunction(
      (awaited) => awaited.every((id) => id in (window as unknown as BridgeWindow).simulatedExcel.results),
      ids,
      { timeout: LONGEST_WAIT_MS, polling: 20 },
    );
    const { sent, messages } = await page.evaluate((awaited) => {
      const { results, resultMessages } = (window as unknown as BridgeWindow).simulatedExcel;
      return { sent: awaited.map((id) => results[id] as SentBack), messages: resultMessages };
    }, ids);
    return {
      results: sent.map(({ entry }) => entry),
      elapsedMs: Math.max(...sent.map(({ atMs }) => atMs)) - startMs,
      messages: messages - before,
    };
  };
}
