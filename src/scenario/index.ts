/** A scenario file joined with the yield tables: every name looked up, every yield and default filled in. */

export { resolveScenario } from "./resolve.js";
