export { openPage } from "./open-page.js";
export { pageHost } from "./page-host.js";
