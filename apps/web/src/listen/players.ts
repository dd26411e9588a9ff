/** Who is heard: the mix as one person sets it, and what it means to leave a lane out. */
import type { LaneId } from "@halflap/board/board";
import type { Mix } from "@halflap/sound/mix";
import type { Part } from "@halflap/sound/play-event";

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

/** Which company a mix is. */
export function companyOf(mix: Mix, own: LaneId): Company | undefined {
  const all: readonly Company[] = ["all", "without-me", "only-me"];
  return all.find((company) => {
    const wanted = inCompany(mix, company, own);
    return band.every((part) => wanted[part].isMuted === mix[part].isMuted);
  });
}
