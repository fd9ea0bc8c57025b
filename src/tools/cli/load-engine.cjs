/*
 * Loads the spreadsheet engine, which ships unmodified in two files of its own: another build of either can be put in
 * its place under the same name. Plain JavaScript, since it is copied beside the bundle as it is.
 */
const { readFileSync } = require("node:fs");
const { join } = require("node:path");
const { Script } = require("node:vm");

const file = join(__dirname, "o_spreadsheet.min.iife.js");
globalThis.owl = require(join(__dirname, "owl.cjs"));
// The script declares one variable, its exports, which is the value of the last line.
module.exports = new Script(`${readFileSync(file, "utf8")}\n;o_spreadsheet`, { filename: file }).runInThisContext();
