/** Where the page about a function stands in the help page: `airflow-face`. */
export function helpAnchor(id: string): string {
  return id.toLowerCase().replaceAll(".", "-");
}

/**
 * Returns functions.json with the address of each function's help, which Excel opens from the list of arguments.
 *
 * @param address - Where the folder is served, without a slash at its end
 */
export function withHelpAddresses(registration: string, address: string): string {
  const given = JSON.parse(registration) as { readonly functions: readonly { readonly id: string }[] };
  const functions = given.functions.map((one) => ({
    ...one,
    helpUrl: `${address}/functions.html#${helpAnchor(one.id)}`,
  }));
  return `${JSON.stringify({ ...given, functions }, null, 2)}\n`;
}
