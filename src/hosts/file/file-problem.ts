import { dirname, resolve } from "node:path";
import { WorkbookFileError } from "../../xlsx/index.js";
import { brokenLink } from "./broken-link.js";

type Doing = "reading" | "writing";

/** Turns what the file system throws into a message that names the file and says what to do. */
export function fileProblem(path: string, cause: unknown, whileDoing: Doing): WorkbookFileError {
  if (cause instanceof WorkbookFileError) return cause;
  const options = { cause };
  switch ((cause as NodeJS.ErrnoException).code) {
    case "ENOENT":
    case "ENOTDIR": {
      const broken = brokenLinkProblem(path, cause, whileDoing);
      if (broken !== undefined) return broken;
      return new WorkbookFileError("not-found", path, "is not there", "Check the name and the folder.", options);
    }
    case "EISDIR":
      return new WorkbookFileError("not-readable", path, "is a folder", "Name a workbook in it.", options);
    case "ENAMETOOLONG":
      return new WorkbookFileError(
        whileDoing === "reading" ? "not-readable" : "not-writable",
        path,
        "has a name that is too long for this disk",
        "Shorten the name of the file or of its folders.",
        options,
      );
    case "ELOOP":
      return whileDoing === "reading"
        ? new WorkbookFileError("not-found", path, LEADS_BACK, "Name the file.", options)
        : new WorkbookFileError("not-writable", path, LEADS_BACK, ANOTHER_NAME, options);
    case "EBUSY":
    case "ETXTBSY":
      return new WorkbookFileError("open-elsewhere", path, "is in use by another program", "Close it there.", options);
    case "ENOSPC":
    case "EDQUOT":
      return new WorkbookFileError(
        "not-writable",
        path,
        "could not be saved: the disk is full; the file is as it was",
        "Make room or save to another disk.",
        options,
      );
    default: {
      const shut = whileDoing === "writing" ? shutFolder(path, cause as NodeJS.ErrnoException) : undefined;
      if (shut !== undefined) {
        return new WorkbookFileError(
          "not-writable",
          path,
          `could not be saved: ${shut}; the file is as it was`,
          "Check the permissions of the folder, or save to another one.",
          options,
        );
      }
      const reason = cause instanceof Error ? cause.message : String(cause);
      return whileDoing === "reading"
        ? new WorkbookFileError(
            "not-readable",
            path,
            `could not be read (${reason})`,
            "Check its permissions.",
            options,
          )
        : new WorkbookFileError(
            "not-writable",
            path,
            `could not be saved (${reason}); the file is as it was`,
            "Check the permissions of the file and its folder, or save under another name.",
            options,
          );
    }
  }
}

const LEADS_BACK = "is a link that leads back to itself";
const ANOTHER_NAME = "Remove the link, or choose another name.";

/** Says which link on the way to a file leads to nothing, and where; undefined where none does. */
export function brokenLinkProblem(path: string, cause: unknown, whileDoing: Doing): WorkbookFileError | undefined {
  const broken = brokenLink(path);
  if (broken === undefined) return undefined;
  const { link, to } = broken;
  const problem = `${link === path ? "is" : `lies in “${link}”,`} a link to “${to}”, which is not there`;
  return whileDoing === "reading"
    ? new WorkbookFileError("not-found", path, problem, "Bring back what the link leads to, or name another file.", {
        cause,
      })
    : new WorkbookFileError("not-writable", path, problem, ANOTHER_NAME, { cause });
}

/** Which folder takes no new file, where that is why nothing could be written. */
function shutFolder(path: string, { code, syscall, path: at }: NodeJS.ErrnoException): string | undefined {
  if (syscall !== "access" && syscall !== "open" && syscall !== "mkdir") return undefined;
  // Whether a folder is open to us was asked of it by its name; what could not be made in it has a name of its own.
  const folder = syscall === "access" && at !== undefined ? at : dirname(path);
  const named = `“${folder === "." ? resolve(folder) : folder}”`;
  if (code === "EROFS") return `the disk of ${named} is read-only`;
  return code === "EACCES" || code === "EPERM" ? `nothing may be written in ${named}` : undefined;
}
