import { setTimeout as sleep } from "node:timers/promises";
import packaged from "@sparticuz/chromium";
import axe from "axe-core";
import { type Browser, chromium, type Page } from "playwright-core";

/** Widths the pages are looked at: a laptop's and a small phone's. */
export const SCREENS = {
  desktop: { width: 1280, height: 900 },
  phone: { width: 360, height: 740 },
} as const;

/** No sandbox, since tests may run as root; no request to any machine but this one. */
const FLAGS = [
  "--no-sandbox",
  "--disable-dev-shm-usage",
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-domain-reliability",
  "--disable-sync",
  "--no-first-run",
  "--no-pings",
  "--font-render-hinting=none",
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
];
const LAUNCH_TRIES = 20;

/**
 * Starts the Chromium that the npm package ships. It is unpacked on first use, and another test process may be
 * unpacking it at this moment, so a start that fails is tried again for some seconds.
 */
export async function openBrowser(): Promise<Browser> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await chromium.launch({ executablePath: await packaged.executablePath(), args: FLAGS });
    } catch (error) {
      if (attempt === LAUNCH_TRIES) throw error;
      await sleep(1000);
    }
  }
}

/** What axe-core finds of serious or critical impact on the page as it stands, one line a finding. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = (await page.evaluate(
    "axe.run(document, { resultTypes: ['violations'] })",
  )) as axe.AxeResults;
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, help, nodes }) =>
      nodes.map(
        ({ target, failureSummary }) => `${id}: ${help}: ${target.join(" ")}: ${failureSummary ?? ""}`,
      ),
    );
}

/** How far the page can be scrolled sideways, in pixels; 0 when it fits the window. */
export async function sidewaysScroll(page: Page): Promise<number> {
  return page.evaluate(() => {
    const root = document.scrollingElement ?? document.documentElement;
    return Math.max(0, root.scrollWidth - root.clientWidth);
  });
}
