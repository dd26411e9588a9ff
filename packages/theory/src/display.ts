/** Musical signs for the eye: the data is ASCII, the page shows ♭ and ♯. */
import type { NoteNaming } from "./note-naming.ts";

const signs: Readonly<Record<string, string>> = { b: "♭", bb: "𝄫", "#": "♯", "##": "𝄪" };

/** What may follow a note name within a chord symbol; any other letter means the text is a word. */
const quality = "maj|ma|min|mi|m(?![a-z])|dim|aug|sus|add|alt|no\\d|M(?![a-z])";
const afterNote = new RegExp(`(?<![A-Za-z])([A-H])(bb|b|##|#)(?=$|[^A-Za-z#]|(?:${quality}))`, "g");
const noteB = new RegExp(`(?<![A-Za-z])B(bb|b|##|#|)(?=$|[^A-Za-z#]|(?:${quality}))`, "g");
const beforeNumber = /(?<![A-Za-z])(bb|b|##|#)(?=\d)/g;
const beforeNumeral = /(?<![A-Za-z])(b|#)(?=(?:[iv]+|[IV]+)(?:\d|\b|maj|m\b|M\d))/g;

/**
 * A text with accidentals as signs: "Bbmaj7" → "B♭maj7", "b3" → "♭3", "m7b5" → "m7♭5", "#iv" →
 * "♯iv", a double flat 𝄫, a double sharp 𝄪. A "b" inside a word stays a letter. In German naming
 * the note B is shown as H and B♭ as B; the text given is English in any case.
 */
export function pretty(text: string, naming: NoteNaming = "english"): string {
  return (naming === "german" ? text.replace(noteB, germanB) : text)
    .replace(afterNote, (_, letter: string, sign: string) => `${letter}${signs[sign]}`)
    .replace(beforeNumber, (sign) => signs[sign] ?? sign)
    .replace(beforeNumeral, (sign) => signs[sign] ?? sign);
}

function germanB(_: string, sign: string): string {
  return sign === "b" ? "B" : `H${sign}`;
}
