const OFFICE_JS_HOST = "appsforoffice.microsoft.com";

function officeScripts(): readonly string[] {
  return performance
    .getEntriesByType("resource")
    .map(({ name }) => name)
    .filter((name) => URL.canParse(name) && new URL(name).hostname === OFFICE_JS_HOST && /\.js(\?|$)/.test(name));
}

/**
 * Lets the browser keep what a start needs, so that the next one needs no network. Where it cannot, as in Excel for
 * Mac, the pane works as before.
 */
export async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  try {
    await navigator.serviceWorker.register("service-worker.js");
    const { active } = await navigator.serviceWorker.ready;
    active?.postMessage({ officeScripts: officeScripts() });
  } catch {
    // A browser that refuses loses nothing but the start without a network.
  }
}
