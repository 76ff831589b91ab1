import { Highs } from "../../src/allocation/engines/highs.js";
import { JavascriptLpSolver } from "../../src/allocation/engines/javascript-lp-solver.js";
import { engineSpec } from "./engine-spec.js";

engineSpec(new JavascriptLpSolver());
engineSpec(new Highs());
