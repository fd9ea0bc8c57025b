#!/usr/bin/env node
/*
 * The command `vanesheet`. Plain JavaScript, since it has to answer before anything is compiled.
 */
import { existsSync } from "node:fs";

const main = new URL("../../build/src/cli/main.js", import.meta.url);

if (existsSync(main)) {
  const { runAsProcess } = await import(main.href);
  process.exitCode = await runAsProcess(process.argv.slice(2));
} else {
  console.error('vanesheet is not built yet. Run "npm start" or "npm run build" in its folder once.');
  process.exitCode = 2;
}
