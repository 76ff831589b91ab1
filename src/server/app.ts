import express, { type ErrorRequestHandler, type Express, type Request, type Response } from "express";
import helmet from "helmet";
import { type Page, pageAssets, renderPages } from "../pages/index.js";
import type { Planned } from "../plan.js";
import { sendProgress } from "./events.js";
import type { Folder, ScenarioFile } from "./folder.js";
import { fromOwnPage, toThisMachine } from "./guards.js";
import type { Planner } from "./planner.js";
import { addressOf, noticeScreen, SECONDS_OFFERED, scenarioScreen, scenariosScreen } from "./screens.js";
import { progressScript } from "./script.js";

const SELF = ["'self'"];
const NONE = ["'none'"];
const CONTENT_POLICY = {
  useDefaults: false,
  directives: {
    defaultSrc: NONE,
    scriptSrc: SELF,
    styleSrc: SELF,
    fontSrc: SELF,
    imgSrc: SELF,
    connectSrc: SELF,
    formAction: SELF,
    baseUri: NONE,
    frameAncestors: NONE,
  },
};

/** Without a referrer a browser would send these pages' own forms as from nowhere. */
const OWN_REFERRER = { policy: "same-origin" } as const;

/** The routes. `seconds` is what a plan may take where the form does not say. */
export function makeApp(folder: Folder, planner: Planner, seconds: number): Express {
  const app = express();
  app.disable("x-powered-by");
  app.use(
    helmet({
      contentSecurityPolicy: CONTENT_POLICY,
      strictTransportSecurity: false,
      referrerPolicy: OWN_REFERRER,
    }),
  );
  app.use(toThisMachine);

  app.get("/", async (_request, response) => {
    const names = await folder.names();
    const files = (await Promise.all(names.map((name) => folder.read(name)))).filter((file) => file !== null);
    response.send(
      scenariosScreen(
        folder.path,
        files.map((file) => ({ file, job: planner.job(file.hash) })),
      ),
    );
  });

  app.get("/assets/progress.js", (_request, response) => {
    response.type("text/javascript").send(progressScript());
  });
  for (const { path, type, content } of pageAssets())
    app.get(`/assets/${path}`, (_request, response) => {
      response.type(type).send(content);
    });

  app.get(
    "/scenario/:name/",
    withFile(folder, (file, _request, response) => {
      response.send(scenarioScreen(file, planner.job(file.hash), pagesOf(file, planner)));
    }),
  );

  app.post(
    "/scenario/:name/plan",
    fromOwnPage,
    express.urlencoded({ extended: false, limit: "1kb" }),
    withFile(folder, (file, request, response) => {
      const { scenario, hash } = file;
      const wanted = Number((request.body as { seconds?: unknown } | undefined)?.seconds);
      const allowed = SECONDS_OFFERED.find((each) => each === wanted) ?? seconds;
      const taken = scenario === null || planner.plan({ key: hash, scenario, seconds: allowed }) !== null;
      if (taken) response.redirect(303, addressOf(file.name));
      else {
        response.status(503).set("Retry-After", "10");
        response.send(noticeScreen("Busy", "Too many plans are waiting. Ask again when some are done."));
      }
    }),
  );

  app.get(
    "/scenario/:name/progress",
    withFile(folder, (file, request, response) => {
      sendProgress(() => planner.job(file.hash), request, response);
    }),
  );

  app.get(
    "/scenario/:name/plan.json",
    withFile(folder, (file, _request, response) => {
      const job = planner.job(file.hash);
      if (job?.kind === "planned") response.json(job.planned.plan);
      else response.status(404).json({ problem: `${file.name} is not planned. Plan it first.` });
    }),
  );

  app.get(
    "/scenario/:name/pages/:page",
    withFile(folder, (file, request, response) => {
      const page = pagesOf(file, planner).find(({ slug }) => `${slug}.html` === request.params.page);
      if (page === undefined) notFound(request, response);
      else response.send(page.html);
    }),
  );

  app.use(notFound);
  app.use(failed);
  return app;
}

type FileHandler = (file: ScenarioFile, request: Request, response: Response) => void;

/** Reads the scenario the address names, as it is now. */
function withFile(folder: Folder, handle: FileHandler) {
  return async (request: Request<{ name: string; page: string }>, response: Response): Promise<void> => {
    const file = await folder.read(request.params.name);
    if (file === null) notFound(request, response);
    else handle(file, request, response);
  };
}

const rendered = new WeakMap<Planned, Page[]>();

/** The pages of the plan made of this file, rendered once; none where there is no plan yet. */
function pagesOf(file: ScenarioFile, planner: Planner): Page[] {
  const job = planner.job(file.hash);
  if (job?.kind !== "planned" || job.planned.plan.outcome.kind === "failed") return [];
  const { plan, scenario } = job.planned;
  const pages =
    rendered.get(job.planned) ??
    renderPages(plan, scenario, { assets: "/assets/", home: { href: "..", text: "Scenario" } });
  rendered.set(job.planned, pages);
  return pages;
}

function notFound(_request: Request, response: Response): void {
  response
    .status(404)
    .send(noticeScreen("Not here", "There is no such page. The scenarios are listed on the first one."));
}

/** A mistake of the request says so; anything else is our fault, said without its innards and noted on stderr. */
const failed: ErrorRequestHandler = (error: unknown, _request, response, next) => {
  if (response.headersSent) {
    next(error);
    return;
  }
  const status = statusOf(error);
  if (status >= 500) process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  const text =
    status < 500
      ? "The request could not be read. Go back and try again."
      : "Something went wrong on our side. The scenario and its file are as they were.";
  response.status(status).send(noticeScreen(status < 500 ? "Not understood" : "Our fault", text));
};

function statusOf(error: unknown): number {
  const status = error instanceof Error && "status" in error ? Number(error.status) : 500;
  return status >= 400 && status < 600 ? status : 500;
}
