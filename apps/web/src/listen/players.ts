/** Who is heard: the mix as one person sets it, and what it means to leave a lane out. */
import type { LaneId } from "@halflap/board/board";
import type { Mix } from "@halflap/sound/mix";
import { type Part, parts } from "@halflap/sound/play-event";

/** Everybody, everybody but me, or me alone; undefined for any other choice. */
export type Company = "all" | "without-me" | "only-me";

/** Those who play along with the guitars; the click is another matter. */
const band: readonly Part[] = ["upper", "lower", "bass", "drums"];

/** The mix with exactly those heard whom the company names; click, count-in and levels stay. */
export function inCompany(mix: Mix, company: Company, own: LaneId): Mix {
  const silent = { all: [], "without-me": [own], "only-me": band.filter((part) => part !== own) };
  const parts: readonly Part[] = silent[company];
  const setting = (part: Part) => ({ ...mix[part], isMuted: parts.includes(part) });
  return {
    ...mix,
    upper: setting("upper"),
    lower: setting("lower"),
    bass: setting("bass"),
    drums: setting("drums"),
  };
}

/** Whether a part is heard without any of the others. */
export function isAlone(mix: Mix, part: Part): boolean {
  return parts.every((each) => each === "count-in" || mix[each].isMuted === (each !== part));
}

/** The mix with one part heard and all others silent; levels and the count-in stay. */
export function withAlone(mix: Mix, part: Part): Mix {
  return withHeard(mix, [part]);
}

/** The mix for something tried: whoever is silent in the tune is still asked for here. */
export function withBothLanes(mix: Mix): Mix {
  const [upper, lower] = [mix.upper, mix.lower];
  return { ...mix, upper: { ...upper, isMuted: false }, lower: { ...lower, isMuted: false } };
}

/** The mix with exactly the parts heard that another one lets through; levels stay. */
export function withHeardOf(mix: Mix, other: Mix): Mix {
  return withHeard(
    mix,
    parts.filter((part) => !other[part].isMuted),
  );
}

function withHeard(mix: Mix, heard: readonly Part[]): Mix {
  const setting = (part: Part) => ({ ...mix[part], isMuted: !heard.includes(part) });
  return {
    upper: setting("upper"),
    lower: setting("lower"),
    bass: setting("bass"),
    drums: setting("drums"),
    click: setting("click"),
    "count-in": mix["count-in"],
  };
}

/** Which company a mix is. */
export function companyOf(mix: Mix, own: LaneId): Company | undefined {
  const all: readonly Company[] = ["all", "without-me", "only-me"];
  return all.find((company) => {
    const wanted = inCompany(mix, company, own);
    return band.every((part) => wanted[part].isMuted === mix[part].isMuted);
  });
}
