/*
 * CIELAB and CIEDE2000 of blocks of cells, four at a time: AssemblyScript, which `npm run kernel` compiles into `kernelBytes.ts`.
 *
 * The memory is seven planes of BLOCK cells in single precision: three of a first colour, three of a second, one of their
 * difference. A call works on the first `cells` of each plane, rounded up to the next four; the host fills and reads them. NaN
 * passes through. Only operations of exact rounding are used, no relaxed ones: the same figures on every machine.
 */

export const BLOCK: i32 = 4096;
/** Bytes from one plane to the next. */
const PLANE: usize = 4 * BLOCK;

function all(value: f64): v128 {
  return f32x4.splat(<f32>value);
}

function squared(value: v128): v128 {
  return f32x4.mul(value, value);
}

/** a + b c */
function plus(a: v128, b: v128, c: v128): v128 {
  return f32x4.add(a, f32x4.mul(b, c));
}

/** a - b c */
function minus(a: v128, b: v128, c: v128): v128 {
  return f32x4.sub(a, f32x4.mul(b, c));
}

/** a b - c d */
function cross(a: v128, b: v128, c: v128, d: v128): v128 {
  return minus(f32x4.mul(a, b), c, d);
}

/** Of x^2 + y^2. */
function root(x: v128, y: v128): v128 {
  return f32x4.sqrt(plus(squared(x), y, y));
}

/**
 * The compression of CIELAB (CIE 15): cube root, linear near black. A third of the bit pattern of t, nearly its logarithm,
 * begins within 4 %; each of two steps of Halley cubes that. The second one is a correction, which spares half of the rounding.
 */
function compress(t: v128): v128 {
  const third = f32x4.mul(f32x4.convert_i32x4_s(t), all(1.0 / 3.0));
  let y = i32x4.add(i32x4.trunc_sat_f32x4_s(third), i32x4.splat(709921077));
  let cube = f32x4.mul(squared(y), y);
  const twice = f32x4.add(t, t);
  y = f32x4.div(f32x4.mul(y, f32x4.add(cube, twice)), f32x4.add(f32x4.add(cube, cube), t));
  cube = f32x4.mul(squared(y), y);
  const step = f32x4.div(f32x4.sub(t, cube), f32x4.add(f32x4.add(cube, cube), t));
  const linear = plus(all(16.0 / 116.0), t, all(24389.0 / 27.0 / 116.0));
  return v128.bitselect(plus(y, y, step), linear, f32x4.gt(t, all(216.0 / 24389.0)));
}

/**
 * The first three planes from linear R, G, B to CIELAB. Rows and offsets give XYZ over that of the white: calibration and white
 * cost nothing a cell.
 */
export function lightToLab(
  cells: i32,
  xr: f64,
  xg: f64,
  xb: f64,
  x0: f64,
  yr: f64,
  yg: f64,
  yb: f64,
  y0: f64,
  zr: f64,
  zg: f64,
  zb: f64,
  z0: f64,
): void {
  const end: usize = (<usize>cells) << 2;
  for (let at: usize = 0; at < end; at += 16) {
    const r = v128.load(at);
    const g = v128.load(at, PLANE);
    const b = v128.load(at, 2 * PLANE);
    const fx = compress(plus(plus(plus(all(x0), all(xr), r), all(xg), g), all(xb), b));
    const fy = compress(plus(plus(plus(all(y0), all(yr), r), all(yg), g), all(yb), b));
    const fz = compress(plus(plus(plus(all(z0), all(zr), r), all(zg), g), all(zb), b));
    v128.store(at, f32x4.sub(f32x4.mul(fy, all(116)), all(16)));
    v128.store(at, f32x4.mul(f32x4.sub(fx, fy), all(500)), PLANE);
    v128.store(at, f32x4.mul(f32x4.sub(fy, fz), all(200)), 2 * PLANE);
  }
}

/** sqrt(C^7 / (C^7 + 25^7)), which occurs in G and in RC. */
function seventh(C: v128): v128 {
  const C2 = squared(C);
  const C7 = f32x4.mul(f32x4.mul(squared(C2), C2), C);
  return f32x4.sqrt(f32x4.div(C7, f32x4.add(C7, all(6103515625))));
}

/**
 * 2 sin(60 exp(-(t / 25)^2)), in degrees, of the angle t with the cosine u: without arctangent, exponential or table, within
 * 2e-5.
 * - t^2 = 2 sum (2q)^n / (n^2 binomial(2n, n)) with q = 1 - u, the series of the squared arcsine. Five terms: where more would
 *   count, the exponential is next to nothing. Beyond 90 degrees t is taken for 90, which leaves 5e-6.
 * - The exponential is that of a sixteenth of its argument to the sixteenth power, and the sine its series up to the seventh.
 */
function rotation(u: v128): v128 {
  const q = f32x4.min(f32x4.sub(all(1), u), all(1));
  let t2 = plus(all(1.0 / 35.0), q, all(16.0 / 1575.0));
  t2 = plus(all(4.0 / 45.0), q, t2);
  t2 = plus(all(1.0 / 3.0), q, t2);
  t2 = f32x4.mul(q, plus(all(2), q, t2));
  // 25 degrees are 5 pi / 36.
  const z = f32x4.mul(t2, all(-1.0 / (16 * ((5 * Math.PI) / 36) * ((5 * Math.PI) / 36))));
  let e = plus(all(1.0 / 6.0), z, all(1.0 / 24.0));
  e = plus(all(0.5), z, e);
  e = plus(all(1), z, e);
  e = plus(all(1), z, e);
  e = squared(squared(squared(squared(e))));
  const s = f32x4.mul(e, all(Math.PI / 3));
  const s2 = squared(s);
  let sine = minus(all(1.0 / 60.0), s2, all(1.0 / 2520.0));
  sine = minus(all(1.0 / 3.0), s2, sine);
  sine = minus(all(2), s2, sine);
  return f32x4.mul(s, sine);
}

// Of so many degrees.
const COS_6: f64 = 0.994521895368273;
const SIN_6: f64 = 0.104528463267653;
const COS_30: f64 = 0.866025403784439;
const SIN_30: f64 = 0.5;
const COS_63: f64 = 0.453990499739547;
const SIN_63: f64 = 0.891006524188368;
const COS_275: f64 = 0.0871557427476579;
const SIN_275: f64 = -0.996194698091746;

const TINY: f64 = 1e-30;

/**
 * CIEDE2000 of the first three planes against the next three, into the seventh. Letters as in Sharma, Wu & Dalal (2005); hues
 * stay vectors. Where the hues lie more than a right angle apart, sums of hue vectors would cancel: differences take their place.
 */
export function deltaE00(cells: i32): void {
  const end: usize = (<usize>cells) << 2;
  for (let at: usize = 0; at < end; at += 16) {
    const L1 = v128.load(at);
    const a1 = v128.load(at, PLANE);
    const b1 = v128.load(at, 2 * PLANE);
    const L2 = v128.load(at, 3 * PLANE);
    const a2 = v128.load(at, 4 * PLANE);
    const b2 = v128.load(at, 5 * PLANE);

    const meanStar = f32x4.mul(f32x4.add(root(a1, b1), root(a2, b2)), all(0.5));
    const onePlusG = minus(all(1.5), seventh(meanStar), all(0.5));
    const a1p = f32x4.mul(onePlusG, a1);
    const a2p = f32x4.mul(onePlusG, a2);
    const C1p = root(a1p, b1);
    const C2p = root(a2p, b2);
    const Cm = f32x4.mul(f32x4.add(C1p, C2p), all(0.5));
    const dC = f32x4.sub(C2p, C1p);

    // C1' C2' sin dh and C1' C2' cos dh. The sine by differences, so that it is sharp between near colours.
    const da = f32x4.mul(onePlusG, f32x4.sub(a2, a1));
    const sine = cross(a1p, f32x4.sub(b2, b1), b1, da);
    const cosine = plus(f32x4.mul(a1p, a2p), b1, b2);
    const wide = f32x4.lt(cosine, all(0));
    const sign = v128.and(sine, all(-0.0));

    // dH^2 = 2 C1' C2' (1 - cos dh) = 2 C1' C2' sin^2 dh / (1 + cos dh); without chroma it is 0.
    const q = f32x4.add(plus(all(TINY), C1p, C2p), f32x4.abs(cosine));
    const narrow = f32x4.div(squared(sine), q);
    const half = v128.bitselect(q, narrow, wide);
    const dH = v128.or(f32x4.sqrt(f32x4.add(half, half)), sign);

    // The mean hue: along the sum of both unit vectors, and square to their difference.
    const across = v128.xor(cross(b2, C1p, b1, C2p), sign);
    const up = v128.xor(cross(a1p, C2p, a2p, C1p), sign);
    let x = v128.bitselect(across, plus(f32x4.mul(a1p, C2p), a2p, C1p), wide);
    let y = v128.bitselect(up, plus(f32x4.mul(b1, C2p), b2, C1p), wide);
    // TINY counts where a chroma is next to nothing: there dH is 0 whatever the mean hue.
    const inverse = f32x4.div(all(1), f32x4.sqrt(f32x4.add(plus(squared(x), y, y), all(TINY))));
    x = f32x4.mul(x, inverse);
    y = f32x4.mul(y, inverse);
    const x2 = cross(x, x, y, y);
    const y2 = f32x4.mul(f32x4.add(x, x), y);
    const x3 = cross(x2, x, y2, y);
    const y3 = plus(f32x4.mul(x2, y), y2, x);
    const x4 = cross(x2, x2, y2, y2);
    const y4 = f32x4.mul(f32x4.add(x2, x2), y2);
    let T = minus(all(1), x, all(0.17 * COS_30));
    T = minus(T, y, all(0.17 * SIN_30));
    T = plus(T, x2, all(0.24));
    T = plus(T, x3, all(0.32 * COS_6));
    T = minus(T, y3, all(0.32 * SIN_6));
    T = minus(T, x4, all(0.2 * COS_63));
    T = minus(T, y4, all(0.2 * SIN_63));

    // SL with numerator and denominator times its root.
    const L50 = f32x4.sub(f32x4.mul(f32x4.add(L1, L2), all(0.5)), all(50));
    const L50Squared = squared(L50);
    const s = f32x4.sqrt(f32x4.add(L50Squared, all(20)));
    const l = f32x4.div(f32x4.mul(f32x4.sub(L2, L1), s), plus(s, L50Squared, all(0.015)));
    const c = f32x4.div(dC, plus(all(1), Cm, all(0.045)));
    const h = f32x4.div(dH, plus(all(1), f32x4.mul(Cm, all(0.015)), T));

    const turn = rotation(plus(f32x4.mul(x, all(COS_275)), y, all(SIN_275)));
    const RT = f32x4.mul(turn, seventh(Cm));
    const sum = plus(plus(squared(l), c, c), h, h);
    v128.store(at, f32x4.sqrt(minus(sum, f32x4.mul(RT, c), h)), 6 * PLANE);
  }
}
