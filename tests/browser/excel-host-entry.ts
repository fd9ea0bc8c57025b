/*
 * Hands the Excel host to a test that runs in the page.
 */
import { excelHost } from "../../src/hosts/excel/index.js";
import { HostError } from "../../src/workbook/index.js";

type Outcome = { readonly value: unknown } | { readonly hostError: string };

const host = excelHost(async () => new Uint8Array());

/** Calls the host by the name of what it does; a map comes back as its entries. */
async function callHost(name: keyof typeof host, args: readonly unknown[]): Promise<Outcome> {
  try {
    const value = await (host[name] as (...given: readonly unknown[]) => Promise<unknown>)(...args);
    return { value: value instanceof Map ? [...value] : value };
  } catch (thrown) {
    if (thrown instanceof HostError) return { hostError: thrown.message };
    throw thrown;
  }
}

Object.assign(window, { callHost });
