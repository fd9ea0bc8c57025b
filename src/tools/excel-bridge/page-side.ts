/*
 * Runs inside the page, before any of its scripts: stands where Excel for Windows stands for office.js. Playwright
 * sends it there as text, so it uses nothing from outside itself.
 */

/** A call of a custom function, as Excel sends it. */
export interface FunctionCall {
  readonly id: number;
  readonly name: string;
  readonly args: readonly unknown[];
  /** 4 tells the runtime that an argument holds an error. */
  readonly flags?: number;
}

/** What went back for one call: as sent, and when, in milliseconds. */
export interface SentBack {
  readonly entry: unknown;
  readonly atMs: number;
}

/** One request of office.js: its actions in order, and the objects that they speak of. */
export interface RichRequest {
  readonly Actions: readonly RichAction[];
  readonly ObjectPaths: Readonly<Record<string, RichPath>>;
}

export interface RichAction {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: { readonly Arguments?: readonly unknown[] };
  readonly QueryInfo?: unknown;
}

export interface RichPath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: { readonly Arguments?: readonly unknown[] };
}

export interface BridgeOptions {
  readonly requirementSets: Readonly<Record<string, string>>;
  /** Name of the function on the page that answers requests; empty answers where it is null. */
  readonly answeredBy: string | null;
  /** Bytes of the workbook as Excel would hand them over as a file; null where nobody asks. */
  readonly workbookFile: readonly number[] | null;
  /** Where the workbook lies, as Excel tells it; a name alone for one that was never saved. */
  readonly place: string;
  /** Whether Excel itself is dark; null where it does not say. */
  readonly isDark: boolean | null;
}

/** Something that happened in the workbook, as Excel tells it. */
export interface WorkbookEvent {
  /** Excel's number for its kind: 10 changed, 11 activated, 14 selection changed, 16 calculated. */
  readonly type: number;
  readonly args: Readonly<Record<string, unknown>>;
}

/** What the page side leaves on the window for the test to reach. */
export interface BridgeWindow {
  simulatedExcel: {
    readonly requests: RichRequest[];
    readonly results: Record<number, SentBack>;
    /** How many messages carried results. */
    resultMessages: number;
    /** How many files of the workbook are open. */
    openFiles: number;
    /** Tells of something that happened. */
    raise(event: WorkbookEvent): void;
    /** Becomes light or dark while the pane lives. */
    isDark: boolean | null;
    call(calls: readonly FunctionCall[]): number;
  };
}

interface NativeMessage {
  readonly id: number;
  readonly type: number;
  readonly message?: { readonly body?: unknown; readonly Body?: unknown };
}

export function installBridge(options: BridgeOptions): void {
  const page = window as unknown as BridgeWindow & Record<string, unknown>;
  const requests: RichRequest[] = [];
  const results: Record<number, SentBack> = {};

  /** Message type 3 carries events to the page; entry type 1, id 1000 is a call of a custom function. */
  const call = (calls: readonly FunctionCall[]) => {
    const entries = calls.map(({ id, name, args, flags }) => [
      1,
      1000,
      "",
      JSON.stringify([id, name, args, null, flags ?? 0, null]),
      0,
    ]);
    const startMs = performance.now();
    bridge.onMessageFromHost(JSON.stringify({ type: 3, message: { entries } }));
    return startMs;
  };
  /** Category 65536 is an event of an object; those of all sheets come with the target "Workbook". */
  const raise = ({ type, args }: WorkbookEvent) => {
    const entries = [[65536, type, "Workbook", JSON.stringify(args), 0]];
    bridge.onMessageFromHost(JSON.stringify({ type: 3, message: { entries } }));
  };
  const state = { requests, results, resultMessages: 0, openFiles: 0, raise, isDark: options.isDark, call };
  page.simulatedExcel = state;

  const keepResults = (action: RichAction) => {
    const entries = (action.ArgumentInfo?.Arguments?.[0] ?? []) as readonly unknown[];
    state.resultMessages += 1;
    for (const entry of entries) {
      const id = Array.isArray(entry) ? entry[0] : (entry as { id: number }).id;
      results[id] = { entry, atMs: performance.now() };
    }
  };

  const answer = async (request: RichRequest): Promise<object> => {
    const asked = request.Actions.filter(({ Name }) => !/^(SetInvocation|_GetEnabledFeatures)/.test(Name ?? ""));
    for (const action of request.Actions) if (/^SetInvocation(Array)?Results$/.test(action.Name)) keepResults(action);
    const features = request.Actions.filter(({ Name }) => Name === "_GetEnabledFeatures");
    if (features.length > 0 || asked.length === 0 || options.answeredBy === null) {
      return { Results: features.map(({ Id }) => ({ ActionId: Id, Value: [1, 2, 3, 4] })), ProcessedResults: [] };
    }
    return (page[options.answeredBy] as (request: RichRequest) => Promise<object>)(request);
  };

  const bridge = {
    onMessageFromHost: (_text: string): void => {
      throw new Error("office.js has not listened yet");
    },
    sendMessageToHost(text: string): void {
      const { id, type, message } = JSON.parse(text) as NativeMessage;
      const body = message?.body ?? message?.Body;
      const request = (typeof body === "string" ? JSON.parse(body) : body) as RichRequest | undefined;
      if (request?.Actions) requests.push(request);
      const answered = request?.Actions ? answer(request) : Promise.resolve({ Results: [], ProcessedResults: [] });
      answered.then((reply) => {
        const message = { statusCode: 200, headers: {}, body: reply };
        setTimeout(() => bridge.onMessageFromHost(JSON.stringify({ id, type, message })), 0);
      });
    },
  };
  page["_richApiNativeBridge"] = bridge;

  const zero = () => 0;
  const none = () => false;
  const empty = () => "";
  const context = {
    GetAppType: () => 1,
    GetSolutionRef: () => "00000000-0000-0000-0000-000000000001",
    GetAppVersionMajor: () => 16,
    GetAppVersionMinor: () => 1,
    GetAppUILocale: () => 1033,
    GetAppDataLocale: () => 1033,
    GetDocUrl: () => options.place,
    GetAppCapabilities: zero,
    GetActivationMode: zero,
    GetControlIntegrationLevel: () => 1,
    GetSolutionToken: empty,
    GetCorrelationId: empty,
    GetInstanceId: () => "1",
    GetTouchEnabled: none,
    GetCommerceAllowed: none,
    GetSupportedMatrix: () => JSON.stringify(options.requirementSets),
    GetHostCustomMessage: zero,
    GetHostFullVersion: () => "16.0.17328.20000",
    GetInitialDisplayMode: zero,
    GetOfficeThemeInfo: () => {
      if (state.isDark === null) throw new Error("This Excel tells no theme");
      const [ground, ink] = state.isDark ? [0x262626, 0xffffff] : [0xffffff, 0x262626];
      return JSON.stringify({ bodyBackgroundColor: ground, bodyForegroundColor: ink });
    },
    GetSettings: () => ({ Read: () => [], Write: zero }),
    GetOsfControl: () => ({}),
  };
  /** A list as Excel for Windows hands it over. */
  const handed = (list: readonly unknown[]) => ({ toArray: () => list, dimensions: () => 1 });

  /** Calls 77, 80 and 81 open a file, read a part of it, and close it; anything else is only acknowledged. */
  const replyTo = (id: number, [, offset = 0, size = 0]: readonly number[]): unknown => {
    const file = options.workbookFile;
    if (file === null || (id !== 77 && id !== 80 && id !== 81)) return [0];
    if (id === 81) state.openFiles -= 1;
    if (id === 81) return handed([0]);
    if (id === 77) state.openFiles += 1;
    if (id === 77) return handed([0, handed([1, file.length])]);
    const part = file.slice(offset, offset + size);
    return handed([0, handed([handed(part), part.length])]);
  };

  const external = {
    GetContext: () => context,
    Execute: (id: number, parameters: readonly number[], callback?: (reply: unknown) => void) =>
      callback?.(replyTo(id, parameters)),
    RegisterEvent: zero,
    UnregisterEvent: zero,
  };
  Object.defineProperty(window, "external", { configurable: true, value: external });
}
