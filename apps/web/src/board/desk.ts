/**
 * What one person has open on the board: where they are, whether the neck lies there, what they
 * picked.
 */
import type { Bar, BarId, Board, LaneId, Slot, SlotId } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import type { Presence } from "@halflap/wire/presence";
import { createContext, createSelector, createSignal, useContext } from "solid-js";
import type { Session } from "../session/session.ts";
import { createBarWriting } from "./bar-writing.ts";
import { createKeyed } from "./keyed.ts";
import { firstToFill, type Place, placeId, samePlace } from "./place.ts";
import { createPreview } from "./preview.ts";
import { scrollManner } from "./scroll-manner.ts";
import { createShownFindings } from "./shown-findings.ts";

export type SlotPlace = Extract<Place, { kind: "slot" }>;

/** What lies open beside the board instead of the neck: about one bar, or about the whole tune. */
export type SidePanel =
  | { readonly kind: "playing"; readonly lane: LaneId; readonly bar: BarId }
  | { readonly kind: "singing"; readonly bar: BarId }
  | { readonly kind: "fit" };

/** Everything the board's parts share beyond the session; made once per open board. */
export type Desk = ReturnType<typeof createDesk>;

/** The lane across the seam. */
export function otherLane(lane: LaneId): LaneId {
  return lane === "upper" ? "lower" : "upper";
}

/** The reactive state of an open board. */
export function createDesk(session: Session) {
  const places = createPlaces(session);
  const findings = createShownFindings(session);
  const side = createSide(places);

  /** Picks a finding and moves to its first slot, in the lane that can change it. */
  function pick(finding: Finding | undefined): void {
    findings.setPickedId(finding?.id);
    const target = finding && placeOf(session, finding);
    if (!target) return;
    places.stand(target);
    scrollToPlace(target, "line");
  }

  /** Stands on a place that words elsewhere speak of, and brings its line into view. */
  function show(place: SlotPlace): void {
    places.stand(place);
    scrollToPlace(place, "line");
  }

  /** Brings a place into view, if it is not, once the page is laid out for it. */
  function reveal(place: SlotPlace): void {
    requestAnimationFrame(() => scrollToPlace(place, "cell"));
  }

  /** What a press on a cell asks for: its neck, or to be what the open fit speaks of. */
  function press(place: SlotPlace): void {
    if (side.sidePanel()?.kind === "fit") places.goTo(place);
    else side.openNeck(place);
  }

  /** Takes up a lane: the keys go to its first slot without a grip. */
  function takeUp(lane: LaneId): void {
    const { sections, lanes } = session.board;
    const bars = sections.flatMap((section) => section.bars);
    const first = firstToFill(bars, lanes[lane]);
    if (first) places.goTo(first);
  }

  return {
    session,
    ...places,
    ...findings,
    ...side,
    ...createPreview(),
    gripAt: createGripAt(session),
    othersAt: createOthersAt(session),
    mayWrite: (lane: LaneId) => session.ownLane() === lane && session.lane() !== undefined,
    ...createBarWriting(),
    pick,
    show,
    reveal,
    press,
    takeUp,
    /** Picks the finding after or before the picked one, round the board. */
    step: (by: 1 | -1) => pick(findings.beside(by)),
  };
}

/** The grip of a slot, read by slot: an edit elsewhere in the lane does not tell its readers. */
function createGripAt(session: Session) {
  const upper = createKeyed(() => session.board.lanes.upper.grips);
  const lower = createKeyed(() => session.board.lanes.lower.grips);
  return (lane: LaneId, slot: SlotId) => (lane === "upper" ? upper(slot) : lower(slot));
}

/** Who else stands on a slot, read by slot: a walk tells only the cells that are left and met. */
function createOthersAt(session: Session) {
  const others = createKeyed(() => {
    const places = new Map<string, readonly Presence[]>();
    for (const each of session.presence()) {
      if (each.lane === undefined || each.slot === undefined) continue;
      const here = `${each.lane}-${each.slot}`;
      places.set(here, [...(places.get(here) ?? []), each]);
    }
    return places;
  });
  return (lane: LaneId, slot: SlotId) => others(`${lane}-${slot}`) ?? [];
}

/** What lies open beside the board: the neck, or what is played or sung in a bar, or nothing. */
function createSide(places: ReturnType<typeof createPlaces>) {
  const [typed, setTyped] = createSignal<{ readonly text: string; readonly place: SlotPlace }>();
  const [isNeckOpen, setNeckOpen] = createSignal(false);
  const [sidePanel, setSidePanel] = createSignal<SidePanel>();

  /**
   * Opens the neck on a slot; `text` is what was typed to open it, or after that: it waits for the
   * neck's field, which may still be on its way.
   */
  function openNeck(next: SlotPlace, text = ""): void {
    const before = samePlace(typed()?.place, next) ? (typed()?.text ?? "") : "";
    places.stand(next);
    setTyped(before + text === "" ? undefined : { text: before + text, place: next });
    setSidePanel(undefined);
    setNeckOpen(true);
    queueMicrotask(() => {
      scrollToPlace(next, "cell");
      // Whoever opened it from a finding far down the side looks up at it.
      document.querySelector(".board-side")?.scrollTo({ top: 0 });
    });
  }

  function openSidePanel(panel: SidePanel): void {
    setNeckOpen(false);
    setTyped(undefined);
    setSidePanel(panel);
    // What is played has a strip of its own, which its panel brings into view.
    if (panel.kind === "playing" || panel.kind === "fit") return;
    queueMicrotask(() => scrollToPlace({ kind: "chords", bar: panel.bar }, "line"));
  }

  const closeNeck = () => {
    leaveField();
    setNeckOpen(false);
    setTyped(undefined);
    backToPlace();
  };
  const closeSidePanel = () => {
    leaveField();
    setSidePanel(undefined);
    backToPlace();
  };
  const backToPlace = () => {
    const here = places.place();
    if (here) focusPlace(here);
  };
  return {
    typed: () => typed()?.text,
    /** The neck's field has it. */
    takeTyped: () => setTyped(undefined),
    isNeckOpen,
    openNeck,
    closeNeck,
    sidePanel,
    openSidePanel,
    closeSidePanel,
  };
}

/** Where the keys stand, and the slot last stood on, which the neck shows. */
function createPlaces(session: Session) {
  const [place, setPlace] = createSignal<Place>();
  const [slotPlace, setSlotPlace] = createSignal<SlotPlace>();

  /** Stands on a place; the other browsers see it when it is a slot. */
  function stand(next: Place): void {
    setPlace(next);
    if (next.kind !== "slot") return;
    setSlotPlace(next);
    session.setWhere({ lane: next.lane, slot: next.slot });
  }
  const goTo = (next: Place) => {
    stand(next);
    focusPlace(next);
  };
  /** Stands where nobody chose to yet, so that the keyboard finds a way in; tells nobody. */
  const settle = (next: Place | undefined) => setPlace(next);
  return {
    place,
    slotPlace,
    /** Whether a place is the one where the keys stand, or the slot last stood on. */
    isHere: createPlaceTest(place),
    isChosen: createPlaceTest(slotPlace),
    ...{ stand, settle, goTo },
  };
}

/** Tells only the places that are left and come to. */
function createPlaceTest(source: () => Place | undefined): (place: Place) => boolean {
  const isIt = createSelector(() => {
    const place = source();
    return place && placeId(place);
  });
  return (place) => isIt(placeId(place));
}

const DeskContext = createContext<Desk>();

/** Hands the desk to everything inside. */
export const DeskProvider = DeskContext.Provider;

/** The desk of the board around a component; using it elsewhere is a bug. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("no board around this component");
  return desk;
}

/** The slot of a place with its bar; undefined when it is gone. */
export function slotAt(
  board: Board,
  place: SlotPlace,
): { readonly bar: Bar; readonly slot: Slot } | undefined {
  for (const section of board.sections) {
    const bar = section.bars.find((each) => each.id === place.bar);
    const slot = bar?.slots.find((each) => each.id === place.slot);
    if (bar && slot) return { bar, slot };
  }
  return undefined;
}

function placeOf(session: Session, finding: Finding): SlotPlace | undefined {
  const own = session.ownLane();
  const lane = finding.lanes.find((each) => each === own) ?? finding.lanes[0] ?? "upper";
  const slot = finding.slots[0];
  for (const section of session.board.sections) {
    const bar = section.bars.find((each) => each.slots.some((inside) => inside.id === slot));
    if (bar && slot !== undefined) return { kind: "slot", lane, bar: bar.id, slot };
  }
  return undefined;
}

/** A field keeps what is typed in it when the keys leave it, which is before it goes. */
function leaveField(): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}

function focusPlace(place: Place): void {
  document.getElementById(placeId(place))?.focus({ preventScroll: false });
}

/** Brings the cell itself into view, or its whole line to the middle. */
function scrollToPlace(place: Place, show: "cell" | "line"): void {
  const cell = document.getElementById(placeId(place));
  const behavior = scrollManner();
  if (show === "cell") cell?.scrollIntoView({ block: "nearest", behavior });
  else cell?.closest("[data-line]")?.scrollIntoView({ block: "center", behavior });
}
