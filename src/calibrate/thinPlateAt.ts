import type { Triple } from "../numeric/triple.ts";
import type { ThinPlate } from "./correction.ts";

/** Lab that a thin plate gives for a predicted Lab. */
export function thinPlateAt(plate: ThinPlate, lab: Triple): Triple {
  const [L, a, b] = lab;
  const [c0, cL, ca, cb] = plate.affine;
  const out: [number, number, number] = [
    c0[0] + cL[0] * L + ca[0] * a + cb[0] * b,
    c0[1] + cL[1] * L + ca[1] * a + cb[1] * b,
    c0[2] + cL[2] * L + ca[2] * a + cb[2] * b,
  ];
  for (let i = 0; i < plate.nodes.length; i++) {
    const node = plate.nodes[i];
    const weight = plate.weights[i];
    const dL = L - node[0];
    const da = a - node[1];
    const db = b - node[2];
    const kernel = -Math.sqrt(dL * dL + da * da + db * db);
    out[0] += kernel * weight[0];
    out[1] += kernel * weight[1];
    out[2] += kernel * weight[2];
  }
  return out;
}
