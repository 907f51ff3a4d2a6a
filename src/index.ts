export { checkCard } from "./calibrate/checkCard.ts";
export { loadCard } from "./card/loadCard.ts";
export { bathRecipe } from "./chemistry/bathRecipe.ts";
export { ciede2000 } from "./colour/ciede2000.ts";
export { compareScans } from "./compare/compareScans.ts";
export { LastrinseError } from "./errors.ts";
export { compareReport } from "./report/compareReport.tsx";
export { inksCsv } from "./report/inksCsv.ts";
