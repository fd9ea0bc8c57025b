export { openLogBook } from "./open-log-book.js";
