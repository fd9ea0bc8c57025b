import { type DEMONSTRATION_FILE, HostError, type TemplateId } from "../../workbook/index.js";

/** Returns the file of a template or of the demonstration, which is served beside the page. */
export async function templateBytes(template: TemplateId | typeof DEMONSTRATION_FILE): Promise<Uint8Array> {
  const answer = await fetch(`templates/${template}.xlsx`).catch((cause: unknown) => {
    throw new HostError(`The template “${template}” cannot be read: the page's server has ended. Start it again.`, {
      cause,
    });
  });
  if (!answer.ok) throw new HostError(`The template “${template}” is not beside this page. Build the page again.`);
  return new Uint8Array(await answer.arrayBuffer());
}
