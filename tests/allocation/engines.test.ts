import { HighsAndSearch } from "../../src/allocation/engines/highs-and-search.js";
import { Highs, JavascriptLpSolver } from "../../src/allocation/engines/threaded.js";
import { engineSpec } from "./engine-spec.js";

engineSpec(new JavascriptLpSolver());
engineSpec(new Highs());
engineSpec(new HighsAndSearch(new Highs()));
