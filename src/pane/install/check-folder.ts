/** One thing about the folder that was looked at, and what to do where it is not in order. */
export interface FolderCheck {
  readonly what: string;
  readonly isInOrder: boolean;
  /** What is wrong and what to do; "" where it is in order. */
  readonly help: string;
}

/** A response as far as the check looks at it. */
export interface Answer {
  readonly status: number;
  readonly isRedirected: boolean;
  header(name: string): string | null;
  text(): Promise<string>;
}

export type Ask = (path: string) => Promise<Answer>;

/** The content type that each ending must have: Excel and browsers refuse a script or a description under another. */
const TYPES: Readonly<Record<string, RegExp>> = {
  ".js": /javascript/,
  ".css": /^text\/css/,
  ".html": /^text\/html/,
  ".json": /json/,
  ".png": /^image\/png/,
  ".xlsx": /openxmlformats|octet-stream/,
};

const ending = (path: string) => /\.[a-z]+$/.exec(path)?.[0] ?? "";

function check(what: string, faults: readonly string[], help: string): FolderCheck {
  const listed = faults.length > 3 ? [...faults.slice(0, 3), `and ${faults.length - 3} more`] : faults;
  return { what, isInOrder: faults.length === 0, help: faults.length === 0 ? "" : `${listed.join(", ")}. ${help}` };
}

/**
 * Looks at the add-in's folder as it is served.
 *
 * @param address - Of the folder, with a slash at its end
 */
export async function checkFolder(address: string, ask: Ask): Promise<readonly FolderCheck[]> {
  const { protocol } = new URL(address);
  const isSecure = check(
    "https with a certificate that this computer trusts",
    protocol === "https:" ? [] : [`This page came by ${protocol.replace(":", "")}`],
    "Excel loads add-ins over https alone. Serve the folder there, then open this page by its https address.",
  );
  let paths: readonly string[];
  try {
    const list = await ask("files.json");
    if (list.status !== 200) throw new Error(`status ${list.status}`);
    paths = JSON.parse(await list.text()) as readonly string[];
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    return [
      isSecure,
      check("Every file is there", [`files.json: ${reason}`], "Copy the whole folder, and let .json be served."),
    ];
  }
  const wanted = paths.filter((path) => ending(path) in TYPES);
  const answers = await Promise.all(wanted.map(async (path) => ({ path, answer: await ask(path).catch(() => null) })));
  const here = answers.flatMap(({ path, answer }) => (answer?.status === 200 ? [{ path, answer }] : []));
  const type = (answer: Answer) => answer.header("content-type") ?? "no type";
  const described = here.find(({ path }) => path === "functions.json");
  const cached = here.filter(({ path, answer }) => {
    if (!/^(pane\.html|functions\.json|service-worker\.js)$/.test(path)) return false;
    const rule = answer.header("cache-control") ?? "";
    return !/no-cache|no-store|max-age=0/.test(rule);
  });
  return [
    isSecure,
    check(
      "Every file is there",
      answers.flatMap(({ path, answer }) =>
        answer?.status === 200 ? [] : [`${path}: ${answer?.status ?? "no answer"}`],
      ),
      "Copy the whole folder; a server may hide endings that it does not know.",
    ),
    check(
      "No login page in front",
      here.flatMap(({ path, answer }) => (answer.isRedirected ? [`${path} leads elsewhere`] : [])),
      "Excel fetches the files without logging in. Let them be read without one.",
    ),
    check(
      "Content types",
      here.flatMap(({ path, answer }) =>
        TYPES[ending(path)]?.test(type(answer)) ? [] : [`${path} comes as ${type(answer)}`],
      ),
      "Use the ready configuration for your server: web.config, .htaccess, _headers or hosting/nginx.conf.",
    ),
    check(
      "Excel on the web may read functions.json",
      described !== undefined && described.answer.header("access-control-allow-origin") === "*"
        ? []
        : ["functions.json comes without Access-Control-Allow-Origin: *"],
      "Without it Excel on the web knows no VANE function. Use the ready configuration for your server.",
    ),
    check(
      "Updates show at once",
      cached.map(({ path }) => `${path} may be kept`),
      "Send Cache-Control: no-cache with it, so that a new version reaches people the same day.",
    ),
  ];
}

/** Returns the manifest for a folder that is served at an address. */
export function manifestFor(template: string, address: string): string {
  const plain = address.replace(/\/+$/, "").replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
  return template.replaceAll("%ADDRESS%", () => plain);
}

/** Returns functions.json with the address of each function's help. */
export function functionsFor(registration: string, address: string): string {
  const given = JSON.parse(registration) as { readonly functions: readonly { readonly id: string }[] };
  const page = `${address.replace(/\/+$/, "")}/functions.html`;
  const functions = given.functions.map((one) => ({
    ...one,
    helpUrl: `${page}#${one.id.toLowerCase().replaceAll(".", "-")}`,
  }));
  return `${JSON.stringify({ ...given, functions }, null, 2)}\n`;
}
