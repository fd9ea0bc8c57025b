import { type Browser, chromium } from "playwright-core";
import { findBrowser } from "./find-browser.js";

/**
 * Starts the browser that is installed here, without a window.
 *
 * A page is opened, used for seconds and closed: what the browser would spend on its last degree of optimization it never
 * gets back. That is a fifth of its processor time.
 */
export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: findBrowser(), args: ["--no-sandbox", "--js-flags=--no-opt"] });
}
