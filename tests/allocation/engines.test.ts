import { Highs } from "../../src/allocation/engines/highs.js";
import { HighsAndSearch } from "../../src/allocation/engines/highs-and-search.js";
import { JavascriptLpSolver } from "../../src/allocation/engines/javascript-lp-solver.js";
import { engineSpec } from "./engine-spec.js";

engineSpec(new JavascriptLpSolver());
engineSpec(new Highs());
engineSpec(new HighsAndSearch(new Highs()));
