import { element } from "./dom.ts";

/** Hands a text to the reader as a file of a name. */
export function saveText(
  name: string,
  text: string,
  type: "application/json" | "image/svg+xml" | "text/csv" | "text/html",
) {
  const url = URL.createObjectURL(new Blob([text], { type }));
  element("a", { href: url, download: name }).click();
  URL.revokeObjectURL(url);
}
