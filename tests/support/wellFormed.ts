const VOID = new Set(["meta", "img", "input", "br", "link", "hr"]);
const RAW = new Set(["script", "style"]);

/**
 * Faults of an HTML text: tags that don't close in order, ids given twice, references to ids that are not there, style or event attributes.
 * Knows only what our own template writes: lower-case tags, attributes in double quotes. A bare ">" in text is allowed in HTML.
 */
export function faultsOf(html: string): string[] {
  const faults: string[] = [];
  const open: string[] = [];
  const ids = new Set<string>();
  const wanted: string[] = [];
  const tag =
    /<(\/?)([a-z][a-z0-9]*)((?:\s+[a-zA-Z0-9:-]+(?:="[^"]*")?)*)\s*(\/?)>|<(?!!doctype html>)/g;
  let match: RegExpExecArray | null;
  while ((match = tag.exec(html)) !== null) {
    const [whole, closing, name, attributes, selfClosed] = match as unknown as string[];
    if (name === undefined) {
      faults.push(
        `bare ${whole} near ${JSON.stringify(html.slice(match.index, match.index + 40))}`,
      );
      continue;
    }
    if (closing === "/") {
      const last = open.pop();
      if (last !== name) faults.push(`</${name}> closes <${String(last)}>`);
      continue;
    }
    for (const [, key, value] of attributes.matchAll(/\s([a-zA-Z0-9:-]+)(?:="([^"]*)")?/g)) {
      if (key === "style" || key.startsWith("on")) faults.push(`${key} on <${name}>`);
      if (key === "id") {
        if (ids.has(value)) faults.push(`id ${value} twice`);
        ids.add(value);
      }
      if (key === "aria-labelledby" || key === "for") wanted.push(value);
      if ((key === "href" || key === "src") && value.startsWith("#")) wanted.push(value.slice(1));
    }
    if (selfClosed === "/" || VOID.has(name)) continue;
    open.push(name);
    if (RAW.has(name)) tag.lastIndex = html.indexOf(`</${name}>`, tag.lastIndex);
  }
  if (open.length > 0) faults.push(`never closed: ${open.join(" ")}`);
  for (const id of wanted) if (!ids.has(id)) faults.push(`no id ${id}`);
  return faults;
}
