// Lets a child process of a test run the sources as they are: `node --import <this file> script.ts`.
import { readFile } from "node:fs/promises";
import { register } from "node:module";
import ts from "typescript";

if (!import.meta.url.endsWith("?hooks")) register(`${import.meta.url}?hooks`);

/** Sources import each other with ".js" endings. */
export async function resolve(specifier, context, next) {
  if (specifier.startsWith(".") && specifier.endsWith(".js")) {
    try {
      return await next(`${specifier.slice(0, -3)}.ts`, context);
    } catch (cause) {
      if (cause.code !== "ERR_MODULE_NOT_FOUND") throw cause;
    }
  }
  return next(specifier, context);
}

export async function load(url, context, next) {
  if (!url.endsWith(".ts")) return next(url, context);
  const source = await readFile(new URL(url), "utf8");
  const compilerOptions = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 };
  return { format: "module", shortCircuit: true, source: ts.transpileModule(source, { compilerOptions }).outputText };
}
