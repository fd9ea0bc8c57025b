/*
 * Keeps the add-in's own files and Microsoft's office.js on this computer, so that a pane that opened once opens again
 * where there is no network. Nothing of a workbook passes through here.
 */
import { clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from "workbox-precaching";
import { registerRoute } from "workbox-routing";
import { NetworkFirst } from "workbox-strategies";

interface Worker {
  readonly location: Location;
  addEventListener(type: "message", listener: (event: MessageEvent<unknown>) => void): void;
}

declare const self: Worker;

/** Put in by the build: the files that a start needs, each with a mark of its content. */
const FILES_TEXT = "%FILES%";

/** How long the network is waited for where a kept file would do [s]. */
const PATIENCE_S = 4;

const OFFICE_JS_HOST = "appsforoffice.microsoft.com";
const OFFICE_JS_CACHE = "vanesheet-office-js";

clientsClaim();
cleanupOutdatedCaches();

// The page comes from the network where there is one, so that a new version shows at once.
registerRoute(
  ({ url, request }) => request.mode === "navigate" && url.pathname.endsWith("/pane.html"),
  new NetworkFirst({
    cacheName: "vanesheet-page",
    networkTimeoutSeconds: PATIENCE_S,
    plugins: [
      {
        // Excel puts words of its own behind the address.
        cacheKeyWillBeUsed: async ({ request }) => request.url.replace(/[?#].*$/, ""),
        handlerDidError: () => matchPrecache("pane.html"),
      },
    ],
  }),
);

precacheAndRoute(JSON.parse(FILES_TEXT) as { url: string; revision: string }[], { ignoreURLParametersMatching: [] });

// Microsoft asks add-ins to load office.js from its address; the last one that came stands in where none comes.
registerRoute(
  ({ url }) => url.hostname === OFFICE_JS_HOST,
  new NetworkFirst({ cacheName: OFFICE_JS_CACHE, networkTimeoutSeconds: PATIENCE_S }),
);

/** The first page loads its scripts before this worker is there, and names them afterwards. */
self.addEventListener("message", ({ data }) => {
  const { officeScripts } = data as { readonly officeScripts?: readonly string[] };
  if (officeScripts === undefined) return;
  void caches.open(OFFICE_JS_CACHE).then(async (cache) => {
    for (const address of officeScripts) {
      if ((await cache.match(address)) !== undefined) continue;
      const response = await fetch(address, { mode: "no-cors" }).catch(() => null);
      if (response !== null) await cache.put(address, response);
    }
  });
});
