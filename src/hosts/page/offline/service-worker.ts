/*
 * Keeps the page's own files in the browser, so that it opens, works and saves without its server or a network. Nothing of
 * a workbook passes through here.
 */
import { clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, precacheAndRoute } from "workbox-precaching";
import { USE_NEW_VERSION } from "./new-version.js";

interface Worker {
  addEventListener(type: "message", listener: (event: MessageEvent<unknown>) => void): void;
  skipWaiting(): Promise<void>;
}

declare const self: Worker;

/** Put in by the build: every file of the page, each with a mark of its content. */
const FILES_TEXT = "%FILES%";

clientsClaim();
cleanupOutdatedCaches();
precacheAndRoute(JSON.parse(FILES_TEXT) as { url: string; revision: string }[], {
  directoryIndex: "index.html",
  ignoreURLParametersMatching: [/./],
});

/** A new version waits until the person takes it: no page changes under somebody who works. */
self.addEventListener("message", ({ data }) => {
  if (data === USE_NEW_VERSION) void self.skipWaiting();
});
