import { WorkbookFileError } from "../../xlsx/index.js";

/** Turns what the file system throws into a message that names the file and says what to do. */
export function fileProblem(path: string, cause: unknown, whileDoing: "reading" | "writing"): WorkbookFileError {
  if (cause instanceof WorkbookFileError) return cause;
  const options = { cause };
  switch ((cause as NodeJS.ErrnoException).code) {
    case "ENOENT":
    case "ENOTDIR":
      return new WorkbookFileError("not-found", path, "is not there", "Check the name and the folder.", options);
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
      return new WorkbookFileError("not-found", path, "is a link that leads back to itself", "Name the file.", options);
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
