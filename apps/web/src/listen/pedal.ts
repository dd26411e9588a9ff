/** Foot pedals send the keys of a keyboard: which of them mean what to one person. */

/** What a pedal can do here. */
export const pedalActions = ["play", "next", "previous"] as const;
export type PedalAction = (typeof pedalActions)[number];

/** The key of each action, as `KeyboardEvent.key` has it; none where none was learnt. */
export type Pedal = Readonly<Partial<Record<PedalAction, string>>>;

/** Keys that no pedal may take: they lead out of wherever one is, or mean nothing alone. */
const reserved = ["Escape", "Tab", "Shift", "Control", "Alt", "Meta", "AltGraph", "CapsLock"];
/** No key has a longer name. */
const keyNameMax = 24;

/** Whether a key can be learnt. */
export function isPedalKey(key: string): boolean {
  const named = key !== "" && key.length <= keyNameMax;
  return named && !reserved.includes(key) && key !== "Unidentified" && key !== "Dead";
}

/** The pedal with a key learnt; whatever it meant before it means no longer. */
export function withKey(pedal: Pedal, action: PedalAction, key: string | undefined): Pedal {
  const others = pedalActions.flatMap((each): readonly (readonly [PedalAction, string])[] => {
    const known = pedal[each];
    return known === undefined || each === action || known === key ? [] : [[each, known]];
  });
  return Object.fromEntries(key === undefined ? others : [...others, [action, key]]);
}

/** What a key means; undefined when it is none of the pedal's. */
export function actionOf(pedal: Pedal, key: string): PedalAction | undefined {
  return pedalActions.find((action) => pedal[action] === key);
}

/** A pedal as it was remembered; undefined for anything else. */
export function pedalValue(value: unknown): Pedal | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  const fields: Readonly<Record<string, unknown>> = { ...value };
  return pedalActions.reduce<Pedal>((pedal, action) => {
    const key = fields[action];
    return typeof key === "string" && isPedalKey(key) ? withKey(pedal, action, key) : pedal;
  }, {});
}
