import { createHash } from "node:crypto";
import type { ComponentChildren, VNode } from "preact";
import { renderToString } from "preact-render-to-string";
import { showControls } from "./showControls.ts";
import { STYLE } from "./style.ts";

/** SHA-256 of an inline style or script as a source of the content security policy. */
function cspHash(text: string): string {
  return `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
}

export interface Page {
  readonly title: string;
  readonly body: VNode;
  /** The one script of the page, our own text; default none. */
  readonly script?: string | undefined;
}

/**
 * One self-contained HTML page: it may load nothing from anywhere, runs only the one style and script whose hashes it names,
 * and shows every text as text.
 */
export function renderPage({ title, body, script = "" }: Page): string {
  const policy = [
    "default-src 'none'",
    "img-src data:",
    `style-src ${cspHash(STYLE)}`,
    ...(script === "" ? [] : [`script-src ${cspHash(script)}`]),
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: STYLE }} />
      </head>
      <body>
        <main>{body}</main>
        {script === "" ? null : <script dangerouslySetInnerHTML={{ __html: script }} />}
      </body>
    </html>
  );
  return showControls(`<!doctype html>\n${renderToString(page)}\n`);
}

/** A part of a page under its own heading. */
export function Section({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ComponentChildren;
}): VNode {
  const id = title
    .toLowerCase()
    .replaceAll(/[^a-z]+/g, " ")
    .trim()
    .replaceAll(" ", "-");
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}
