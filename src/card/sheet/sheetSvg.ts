import type { Drawing, Shape } from "./drawing.ts";

/** The drawing as an SVG file of true size: width and height in mm, one user unit a millimetre. */
export function sheetSvg(drawing: Drawing): string {
  const { widthMm, heightMm, title } = drawing;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}">`,
    `<title>${escaped(title)}</title>`,
    `<rect x="0" y="0" width="${widthMm}" height="${heightMm}" fill="#ffffff"/>`,
    ...drawing.shapes.map(element),
    "</svg>",
    "",
  ].join("\n");
}

function element(shape: Shape): string {
  switch (shape.kind) {
    case "rect":
      return `<rect x="${mm(shape.x)}" y="${mm(shape.y)}" width="${mm(shape.width)}" height="${mm(shape.height)}" fill="${shape.fill}"/>`;
    case "circle":
      return `<circle cx="${mm(shape.x)}" cy="${mm(shape.y)}" r="${mm(shape.radius)}" fill="${shape.fill}"/>`;
    case "line":
      return `<line x1="${mm(shape.from[0])}" y1="${mm(shape.from[1])}" x2="${mm(shape.to[0])}" y2="${mm(shape.to[1])}" stroke="${shape.stroke}" stroke-width="${mm(shape.width)}"/>`;
    case "text":
      return `<text x="${mm(shape.x)}" y="${mm(shape.y)}" font-family="Helvetica, Arial, sans-serif" font-size="${mm(shape.size)}" text-anchor="${shape.anchor}" fill="${shape.fill}">${escaped(shape.text)}</text>`;
  }
}

/** A hundredth of a micrometre: enough, and the same text on every machine. */
function mm(value: number): string {
  return String(Math.round(value * 1e5) / 1e5);
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
