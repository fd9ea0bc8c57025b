/** What the page tells the worker that waits with a new version. */
export const USE_NEW_VERSION = "use-new-version";
