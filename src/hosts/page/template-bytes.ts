import {
  type DEMONSTRATION_FILE,
  HostError,
  isAsItsFile,
  type TemplateId,
  type TemplateOptions,
} from "../../workbook/index.js";

/** Gives the bytes of a template, as its file has it or with what was chosen. */
export type TemplateBytes = (template: TemplateId, options: TemplateOptions) => Promise<Uint8Array>;

/** Returns a template as its file has it, or one that is made of its plan. */
export async function chosenTemplate(template: TemplateId, options: TemplateOptions): Promise<Uint8Array> {
  if (isAsItsFile(options)) return templateBytes(template);
  const { plannedTemplate } = await import("../../engine/planned-template.js");
  return (await plannedTemplate(template, options)).archive.bytes;
}

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
