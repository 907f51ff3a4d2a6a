import { startKernel } from "./startKernel.ts";

/** The kernel of this thread, started in under a millisecond; null where vectors are not to be had. */
export const SHARED_KERNEL = startKernel();
