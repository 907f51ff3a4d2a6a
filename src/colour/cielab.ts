/** Where CIELAB changes from its cube root to its straight line, and the slope of that line, as fractions (CIE 15:2004). */
export const EPSILON = 216 / 24389;
export const KAPPA = 24389 / 27;
