/**
 * What the page may load and talk to: its own files, and no other address at all.
 *
 * The spreadsheet engine compiles formulas into functions ('unsafe-eval') and sets styles on its elements; it draws
 * its icons and charts as data.
 */
export const PAGE_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");
