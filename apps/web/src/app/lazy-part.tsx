/** Parts of a page that are fetched when they are first drawn, and may be out of reach then. */
import {
  type Component,
  createComponent,
  createRoot,
  createSignal,
  ErrorBoundary,
  lazy,
  onMount,
  Suspense,
} from "solid-js";

type Closable = { readonly onClose?: () => void };

class NotFetched extends Error {}

// One word for the whole page: a browser may remember, until the page is loaded again, that
// a module could not be fetched.
const [isMissed, setMissed] = createRoot(() => createSignal(false));

/** Whether a part was wanted and could not be fetched, and nobody has read so yet. */
export const isPartMissed = isMissed;

/** It was read. */
export function dismissMissed(): void {
  setMissed(false);
}

/**
 * A component that is fetched when it is first drawn; until then nothing is. One that can't be
 * fetched is missed (`isPartMissed`) and closed again, where it can be: all else stays as it is.
 */
export function lazyPart<Props extends object>(fetchPart: () => Promise<Component<Props>>) {
  const Part = lazy(async () => {
    try {
      return { default: await fetchPart() };
    } catch (cause) {
      throw new NotFetched("part of the page", { cause });
    }
  });
  const Whole: Component<Props & Closable> = (props) => (
    <ErrorBoundary fallback={(error) => <Missed error={error} onClose={props.onClose} />}>
      <Suspense>{createComponent<Props>(Part, props)}</Suspense>
    </ErrorBoundary>
  );
  /** Fetches it ahead; what fails shows when it is drawn. */
  const preload = () => Part.preload().catch(() => undefined);
  return Object.assign(Whole, { preload });
}

/** A fault in a part that is there is not ours to hide. */
function Missed(props: { readonly error: unknown; readonly onClose: (() => void) | undefined }) {
  if (!(props.error instanceof NotFetched)) throw props.error;
  onMount(() => {
    setMissed(true);
    props.onClose?.();
  });
  return null;
}
