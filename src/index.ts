/** The library: read a scenario, plan it, and render its pages. */
export { type EngineName, Engines } from "./allocation/index.js";
export { type PlanJson, planSchema } from "./contract/index.js";
export { type Aim, type Scenario, scenarioJsonSchema } from "./kitchen/index.js";
export { type Loaded, loadScenario, loadScenarioText } from "./kitchen-files/index.js";
export { CostingError } from "./ledger/index.js";
export { type Page, type PageAsset, type PageOptions, pageAssets, renderPages } from "./pages/index.js";
export { type Planned, type PlanOptions, type PlanProgress, planScenario } from "./planning/index.js";
export { type Problem, problemText } from "./reading/index.js";
