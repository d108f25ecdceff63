/** Less is what a solver leaves over, not water [m³/s]: a drop an hour. */
const STILL_M3S = 1e-9;

/** A flow, with a solver's remnant taken as none. @example still(-1.4e-14) // 0 */
export const still = (flow_m3s: number): number => (Math.abs(flow_m3s) < STILL_M3S ? 0 : flow_m3s);
