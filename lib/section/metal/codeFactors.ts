/** Recommended partial factors of EN 1999-1-1: 1.10 and 1.25 seen in TALAT 2301, the weld's 1.25 from memory. */
export const GAMMA = { yield: 1.1, rupture: 1.25, weld: 1.25 };

/** Safety factors of the Aluminum Design Manual for buildings, allowable strength design; memory. */
export const OMEGA = { yield: 1.65, rupture: 1.95 };

/** Parent and soft strength with their shear strengths by von Mises, MPa. */
export const vonMises = (parentMPa: number, softMPa: number) => ({
  parentMPa,
  softMPa,
  shearParentMPa: parentMPa / Math.sqrt(3),
  shearSoftMPa: softMPa / Math.sqrt(3),
});
