import type { CommonOptions } from "./context.ts";

/** Options of `bath`, as typed. */
export interface BathOptions extends CommonOptions {
  readonly spent?: string;
  readonly blank?: string;
  readonly kind?: "wash" | "rinse";
  readonly surfactant?: boolean;
  readonly composition?: string;
  readonly recipe?: string;
  readonly minutes?: number;
  readonly temperatureC?: number;
  readonly volumeMl?: number;
  readonly phIn?: number;
  readonly phOut?: number;
  readonly agitation?: string;
  readonly foam?: "none" | "some" | "much";
  readonly note?: string;
  readonly photo: boolean;
  readonly photoFor?: string;
  readonly station?: string;
  readonly turbiditySeries?: string;
  readonly card?: string;
  readonly evidence?: string;
  readonly full: boolean;
}
