import { lstatSync, readlinkSync, type Stats, statSync } from "node:fs";
import { dirname, isAbsolute, join } from "node:path";

/** A link on the way to a file, and what it leads to in the end, which is not there. */
export interface BrokenLink {
  readonly link: string;
  readonly to: string;
}

/**
 * Finds the link because of which there is nothing at a path: its last name, or a folder on the way.
 *
 * @returns Undefined where no link is the reason
 */
export function brokenLink(path: string): BrokenLink | undefined {
  let at = path;
  while (lstatOf(at) === undefined && dirname(at) !== at) at = dirname(at);
  if (lstatOf(at)?.isSymbolicLink() !== true || statOf(at) !== undefined) return undefined;
  return { link: at, to: endOf(at) };
}

/** What cannot be looked at counts as not there: whatever else is wrong with it is said by what was tried with it. */
function looked(look: () => Stats): Stats | undefined {
  try {
    return look();
  } catch {
    return undefined;
  }
}

const lstatOf = (path: string) => looked(() => lstatSync(path));
const statOf = (path: string) => looked(() => statSync(path));

/** Follows a link to the first name that is none. A circle of links is told apart before. */
function endOf(link: string): string {
  const written = readlinkSync(link);
  const to = isAbsolute(written) ? written : join(dirname(link), written);
  return lstatOf(to)?.isSymbolicLink() === true ? endOf(to) : to;
}
