import { fill } from "../pages/index.js";

/** What pages need beside them is served here. */
export const ASSETS = "/assets/";

/** Address of a scenario's own screen; everything about it lies below. */
export function addressOf(name: string): string {
  return `/scenario/${encodeURIComponent(name)}/`;
}

/** Address of a test card's own screen. */
export function testCardAddress(file: string): string {
  return `/test-card/${encodeURIComponent(file)}/`;
}

/** Of a page whose way back leads to the first page. */
export const FROM_FIRST_PAGE = { assets: ASSETS, home: { href: "/", text: "All scenarios" } };

/** Of a page that stands beside a scenario's screen. */
export const BESIDE_SCENARIO = { assets: ASSETS, home: { href: ".", text: "Scenario" } };

/** Of a page about a scenario, whose way back leads to its screen. */
export function fromScenario(name: string) {
  return { assets: ASSETS, home: { href: addressOf(name), text: "Scenario" } };
}

/** What the frame of every screen holds: whether it has a way back, and whether it watches a plan being made. */
export function frame(title: string, { back = true, watches = false }) {
  return { title, back: back ? "yes" : "", watches: watches ? "yes" : "" };
}

/** One thing to say and a way back: an error, a wrong address. */
export function noticeScreen(title: string, text: string): string {
  return fill("notice", { ...frame(title, {}), text });
}
