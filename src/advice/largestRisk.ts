/** A limit on the risk above one half would make a wider error look safer than a narrow one: it counts as one half. */
export const LARGEST_RISK = 0.5;
