import type { Comment } from "../sheet.js";
import { readXml } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";

/**
 * Reads the notes on a sheet's cells. Conversations of newer programs leave a note with the same text, so they are read
 * from there.
 *
 * @source ECMA-376-1:2016, section 18.7
 */
export function readComments(bytes: Uint8Array, place: string): readonly Comment[] {
  const authors: string[] = [];
  const comments: Comment[] = [];
  let address = "";
  let author = 0;
  let text = "";
  let collecting: "author" | "text" | undefined;
  readXml(bytes, place, {
    open(name, attributes, depth) {
      if (depth === 3 && name === "comment") {
        address = attributes["ref"] ?? "";
        author = Number(attributes["authorId"] ?? -1);
        text = "";
      } else if (depth === 3 && name === "author") {
        collecting = "author";
        text = "";
      } else if (name === "t") collecting = "text";
    },
    text(chunk) {
      if (collecting !== undefined) text += chunk;
    },
    close(name, depth) {
      if (depth === 3 && name === "author") authors.push(decodeXstring(text));
      if (depth === 3 && name === "comment") {
        comments.push({ address, author: authors[author] ?? "", text: decodeXstring(text) });
      }
      collecting = undefined;
    },
  });
  return comments;
}
