import type { Triple } from "../../../src/numeric/triple.ts";

// Chromaticity x, y and luminance factor Y (0..1) under D50, 2 degree observer, of the 24-patch chart in chart order. Figures read from
// colour-science/colour @9d743142, colour/characterisation/datasets/colour_checkers/chromaticity_coordinates.py (BSD-3-Clause).

/** The maker's values of 2005. */
// prettier-ignore
export const CHART24_2005_XYY: readonly Triple[] = [
  [0.4316, 0.3777, 0.1008], // dark skin
  [0.4197, 0.3744, 0.3495], // light skin
  [0.2760, 0.3016, 0.1836], // blue sky
  [0.3703, 0.4499, 0.1325], // foliage
  [0.2999, 0.2856, 0.2304], // blue flower
  [0.2848, 0.3911, 0.4178], // bluish green
  [0.5295, 0.4055, 0.3118], // orange
  [0.2305, 0.2106, 0.1126], // purplish blue
  [0.5012, 0.3273, 0.1938], // moderate red
  [0.3319, 0.2482, 0.0637], // purple
  [0.3984, 0.5008, 0.4446], // yellow green
  [0.4957, 0.4427, 0.4357], // orange yellow
  [0.2018, 0.1692, 0.0575], // blue
  [0.3253, 0.5032, 0.2318], // green
  [0.5686, 0.3303, 0.1257], // red
  [0.4697, 0.4734, 0.5981], // yellow
  [0.4159, 0.2688, 0.2009], // magenta
  [0.2131, 0.3023, 0.1930], // cyan
  [0.3469, 0.3608, 0.9131], // white 9.5
  [0.3440, 0.3584, 0.5894], // neutral 8
  [0.3432, 0.3581, 0.3632], // neutral 6.5
  [0.3446, 0.3579, 0.1915], // neutral 5
  [0.3401, 0.3548, 0.0883], // neutral 3.5
  [0.3406, 0.3537, 0.0311], // black 2
];

/** Mean of published measurements of 30 charts, 2012. */
// prettier-ignore
export const CHART24_MEAN30_XYY: readonly Triple[] = [
  [0.4325, 0.3788, 0.1034], // dark skin
  [0.4191, 0.3748, 0.3525], // light skin
  [0.2761, 0.3004, 0.1847], // blue sky
  [0.3700, 0.4501, 0.1335], // foliage
  [0.3020, 0.2877, 0.2324], // blue flower
  [0.2856, 0.3910, 0.4174], // bluish green
  [0.5291, 0.4075, 0.3117], // orange
  [0.2339, 0.2155, 0.1140], // purplish blue
  [0.5008, 0.3293, 0.1979], // moderate red
  [0.3326, 0.2556, 0.0644], // purple
  [0.3989, 0.4998, 0.4435], // yellow green
  [0.4962, 0.4428, 0.4358], // orange yellow
  [0.2040, 0.1696, 0.0579], // blue
  [0.3270, 0.5033, 0.2307], // green
  [0.5709, 0.3298, 0.1268], // red
  [0.4694, 0.4732, 0.6081], // yellow
  [0.4177, 0.2704, 0.2007], // magenta
  [0.2151, 0.3037, 0.1903], // cyan
  [0.3488, 0.3628, 0.9129], // white 9.5
  [0.3451, 0.3596, 0.5885], // neutral 8
  [0.3446, 0.3590, 0.3595], // neutral 6.5
  [0.3438, 0.3589, 0.1912], // neutral 5
  [0.3423, 0.3576, 0.0893], // neutral 3.5
  [0.3439, 0.3565, 0.0320], // black 2
];
