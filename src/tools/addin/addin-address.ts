/** Where the add-in is served while it is developed; the committed manifest carries it. */
export const DEVELOPMENT_ADDRESS = "https://localhost:3000";

/**
 * Returns the address that the add-in will be served from, without a slash at its end; null where none is given, and
 * the folder then holds no address.
 *
 * @param given - What `VANESHEET_BASE_URL` says
 * @throws {Error} When it is not an https address, or carries a query
 */
export function addinAddress(given: string | undefined): string | null {
  if (given === undefined || given.trim() === "") return null;
  const url = URL.canParse(given) ? new URL(given) : null;
  if (url === null || url.protocol !== "https:" || url.search !== "" || url.hash !== "") {
    throw new Error(
      `VANESHEET_BASE_URL is “${given}”. Give the https address of the folder that serves dist/addin, for example https://apps.example.com/vanesheet.`,
    );
  }
  return url.href.replace(/\/+$/, "");
}
