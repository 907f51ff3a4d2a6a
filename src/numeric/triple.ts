/** Three numbers that belong together: XYZ, Lab or linear RGB. The name of the variable says which. */
export type Triple = readonly [number, number, number];
