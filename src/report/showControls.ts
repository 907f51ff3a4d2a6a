/** C0 and C1 controls but tab, line feed and carriage return, the marks that turn the direction of text, and invisible joiners. */
const HIDDEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g;

/** Control characters as signs that can be seen: a text from a record can neither hide nor turn round what stands beside it. */
export function showControls(text: string): string {
  return text.replaceAll(
    HIDDEN,
    (sign) => `[U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}]`,
  );
}
