/** The page's routes, each loaded when it is first needed. */
import { Route, Router } from "@solidjs/router";
import { ErrorBoundary, type JSX, lazy, Suspense } from "solid-js";
import { Nowhere, Opening, Stumbled } from "./Notices.tsx";

const Door = lazy(async () => ({ default: (await import("../door/Door.tsx")).Door }));
const JoinPage = lazy(async () => ({ default: (await import("../door/JoinPage.tsx")).JoinPage }));
const BoardPage = lazy(async () => ({ default: (await import("./BoardPage.tsx")).BoardPage }));

/** Everything on the page. */
export function App(): JSX.Element {
  return (
    <ErrorBoundary fallback={(error) => <Stumbled error={error} />}>
      <Router root={(props) => <Suspense fallback={<Opening />}>{props.children}</Suspense>}>
        <Route path="/" component={Door} />
        <Route path="/join" component={JoinPage} />
        <Route path="/board/:id" component={BoardPage} />
        <Route path="*" component={Nowhere} />
      </Router>
    </ErrorBoundary>
  );
}
