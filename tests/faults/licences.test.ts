import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

interface Installed {
  readonly license?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
}

const file = (name: string): string =>
  readFileSync(new URL(`../../${name}`, import.meta.url), "utf8");

/** A package that states its licence in a file of its own only: read there. */
const STATED_IN_A_FILE: Readonly<Record<string, string>> = { "png-js": "MIT" };

test("every package installed beside the program has a licence that LICENSE names", () => {
  const { packages } = JSON.parse(file("package-lock.json")) as { packages: Record<string, Installed> }; // prettier-ignore
  const [, notes] = file("LICENSE").split("Third-party notes");
  // Optional ones are binaries of the image library for other machines; its own licence stands in the notes.
  const needed = Object.entries(packages).filter(([path, one]) => path !== "" && one.dev !== true && one.optional !== true); // prettier-ignore
  expect(needed.length).toBeGreaterThan(20);
  for (const [path, { license }] of needed) {
    const name = path.replace(/^.*node_modules\//, "");
    const words = (license ?? STATED_IN_A_FILE[name] ?? "none").replace(/[()]/g, "").split(" AND ");
    for (const word of words) expect(notes, `${name}: ${word}`).toContain(word);
  }
  expect(notes).toContain("LGPL-3.0-or-later");
});
