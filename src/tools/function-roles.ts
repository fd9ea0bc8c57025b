import { readFileSync } from "node:fs";
import ts from "typescript";
import { PARAMETER_ROLES, type ParameterRole } from "../cells/parameter-role.js";

/** The role of each parameter that has one, by the function's id and the parameter's name. */
export type FunctionRoles = ReadonlyMap<string, ReadonlyMap<string, ParameterRole>>;

function isRole(word: string): word is ParameterRole {
  return (PARAMETER_ROLES as readonly string[]).includes(word);
}

/**
 * Reads the tag `@roles` of every cell function in a file: the parameters that checks look at by what they are. A word
 * is a parameter's name where that is its role as well, and `name=role` elsewhere.
 *
 * @throws {Error} When a word names no parameter or no role
 */
export function rolesIn(file: string, text = readFileSync(file, "utf8")): FunctionRoles {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const roles = new Map<string, ReadonlyMap<string, ParameterRole>>();
  for (const declaration of source.statements.filter(ts.isFunctionDeclaration)) {
    const tags = ts.getJSDocTags(declaration);
    const textOf = (name: string) => {
      const tag = tags.find(({ tagName }) => tagName.text === name);
      return tag === undefined ? "" : (ts.getTextOfJSDocComment(tag.comment) ?? "").trim();
    };
    const id = textOf("customfunction");
    if (id === "") continue;
    const parameters = declaration.parameters.map(({ name }) => name.getText());
    const words = textOf("roles").split(/\s+/).filter(Boolean);
    roles.set(id, new Map(words.map((word) => readWord(word, id, parameters))));
  }
  return roles;
}

function readWord(word: string, id: string, parameters: readonly string[]): readonly [string, ParameterRole] {
  const [name = "", role = name] = word.split("=");
  if (!parameters.includes(name)) throw new Error(`@roles of ${id}: there is no parameter ${name}`);
  if (!isRole(role)) throw new Error(`@roles of ${id}: ${role} is not one of ${PARAMETER_ROLES.join(", ")}`);
  return [name, role];
}
