export { findBrowser } from "../../src/tools/find-browser.js";
