/**
 * The house from the ground up: a room may use those before it, never those after it. Types count.
 * `calibration` holds data and stands under everything; `cli` and `page` are doors to the rooms below.
 */
const ROOMS = [
  "numeric",
  "grid",
  "colour/simd",
  "colour",
  "json",
  "threads",
  "files",
  "results",
  "vision",
  "raster/kernel",
  "raster",
  "card",
  "calibrate",
  "print",
  "picture",
  "regions",
  "plates",
  "register",
  "change",
  "blotter",
  "jar/turbidity",
  "jar/optics",
  "jar/place",
  "jar/stripes",
  "jar",
  "bath",
  "chemistry",
  "advice",
  "compare",
  "record",
  "report",
  "page",
];

/** A room's own files, without the chapters inside it that stand elsewhere in the list. */
function filesOf(room) {
  const chapters = ROOMS.filter((other) => other.startsWith(`${room}/`)).map(
    (other) => `${other.slice(room.length + 1)}/`,
  );
  const not = chapters.length === 0 ? "" : `(?!${chapters.join("|")})`;
  return `^src/${room}/${not}`;
}

const upward = ROOMS.slice(0, -1).map((room, i) => ({
  name: `${room.replace("/", "-")}-downwards-only`,
  severity: "error",
  from: { path: filesOf(room) },
  to: { path: ROOMS.slice(i + 1).map(filesOf) },
}));

/** @type {import("dependency-cruiser").IConfiguration} */
export default {
  forbidden: [
    ...upward,
    { name: "no-circle", severity: "error", from: {}, to: { circular: true } },
    {
      name: "room-in-the-list",
      comment: "A new folder under src needs its place in ROOMS.",
      severity: "error",
      from: { path: "^src/[^/]+/", pathNot: ROOMS.map((room) => `^src/${room}/`) },
      to: {},
    },
    {
      name: "data-on-numeric-alone",
      severity: "error",
      from: { path: "^calibration/" },
      to: { path: "^(src|cli)/", pathNot: "^src/numeric/" },
    },
    { name: "src-below-cli", severity: "error", from: { path: "^src/" }, to: { path: "^cli/" } },
    {
      name: "opencv-in-vision",
      severity: "error",
      from: { pathNot: "^src/vision/" },
      to: { path: "opencv-wasm" },
    },
    {
      name: "no-helper-from-the-top",
      comment: "errors.ts and progress.ts serve everyone; index.ts is for users of the library.",
      severity: "error",
      from: { path: "^(src|cli)/" },
      to: { path: "^src/index\\.ts$" },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    exclude: { path: "\\.as\\.ts$" },
  },
};
