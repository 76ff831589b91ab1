import express, { type Express } from "express";
import helmet from "helmet";
import { failed, notFound, otherMethod } from "./answers.js";
import type { Context } from "./context.js";
import { notStored, toThisMachine } from "./guards.js";
import { addAnswerRoutes } from "./routes/answers.js";
import { addAssetRoutes } from "./routes/assets.js";
import { addFirstPageRoutes } from "./routes/first-page.js";
import { addFormRoutes } from "./routes/forms.js";
import { addOnTheDayRoutes } from "./routes/on-the-day.js";
import { addPlanRoutes } from "./routes/plans.js";
import { addQuestionRoutes } from "./routes/questions.js";
import { addSafetyCaseRoute } from "./routes/safety-case.js";
import { addTestCardRoutes } from "./routes/test-cards.js";
import { addWeighInRoutes } from "./routes/weigh-in.js";
import { addYieldRoutes } from "./routes/yields.js";

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

/** The server's answers: what holds for all, then the routes, one subject after the other. */
export function makeApp(context: Context): Express {
  const app = express();
  app.disable("x-powered-by");
  app.use(
    helmet({
      contentSecurityPolicy: CONTENT_POLICY,
      strictTransportSecurity: false,
      referrerPolicy: OWN_REFERRER,
    }),
  );
  app.use(notStored);
  app.use(toThisMachine);
  addAssetRoutes(app);
  addFirstPageRoutes(app, context);
  addPlanRoutes(app, context);
  addQuestionRoutes(app, context);
  addYieldRoutes(app, context);
  addFormRoutes(app, context);
  addOnTheDayRoutes(app, context);
  addAnswerRoutes(app, context);
  addTestCardRoutes(app, context);
  addWeighInRoutes(app, context);
  addSafetyCaseRoute(app, context);
  app.use(otherMethod(app));
  app.use(notFound);
  app.use(failed);
  return app;
}
