/*
 * Runs before everything else and says what keeps the pane from starting: without it a blocked script leaves nothing but
 * "Loading …". It stands alone, since nothing else may have come.
 */

/** How long a start may take before something is said [ms]. */
const PATIENCE_MS = 20_000;

const OFFICE_JS = "appsforoffice.microsoft.com";

document.documentElement.dataset["theme"] = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";

function say(sentences: string): void {
  const pane = document.getElementById("pane");
  if (pane === null || pane.querySelector("[role=tab]") !== null) return;
  const words = document.createElement("p");
  words.setAttribute("role", "alert");
  words.textContent = sentences;
  const again = document.createElement("button");
  again.type = "button";
  again.className = "vs-button";
  again.textContent = "Try again";
  again.addEventListener("click", () => location.reload());
  pane.replaceChildren(words, again);
}

function missing(address: string): string {
  const { hostname, pathname } = new URL(address, location.href);
  if (hostname === OFFICE_JS) {
    return `Excel's script office.js did not come from ${OFFICE_JS}. Every Office add-in needs it. Check the network; if other pages open, ask whoever manages it to allow that address.`;
  }
  return `${pathname.split("/").at(-1)} did not come from ${location.host}, where Vanesheet is kept. Check the network, or tell whoever set Vanesheet up.`;
}

/** A script that fails to load tells nobody but who listens here, before it reaches its element. */
addEventListener(
  "error",
  ({ target }) => {
    if (target instanceof HTMLScriptElement) say(missing(target.src));
  },
  true,
);

setTimeout(() => {
  if (document.documentElement.dataset["started"] !== undefined) return;
  const isOfficeHere = "Office" in window && "CustomFunctions" in window;
  say(
    isOfficeHere
      ? "Excel has not answered for 20 seconds. Close this pane and open it again; if that does not help, close the workbook and open it again."
      : `Excel's script office.js has not come from ${OFFICE_JS} for 20 seconds. Check the network; if other pages open, ask whoever manages it to allow that address.`,
  );
}, PATIENCE_MS);
