/** The page's few signs, drawn with one pen: 20 by 20, lines of 1.75, square joints. */
import type { JSX } from "solid-js";

function Icon(props: { readonly children: JSX.Element }): JSX.Element {
  return (
    <svg
      viewBox="0 0 20 20"
      fill="none"
      stroke="currentColor"
      stroke-width="1.75"
      aria-hidden="true"
    >
      {props.children}
    </svg>
  );
}

/** An arrow back. */
export const UndoIcon = () => (
  <Icon>
    <path d="M7.5 3.5 3.5 7.5l4 4" />
    <path d="M4 7.5h7.5a4.5 4.5 0 0 1 0 9H7" />
  </Icon>
);

/** An arrow forth. */
export const RedoIcon = () => (
  <Icon>
    <path d="m12.5 3.5 4 4-4 4" />
    <path d="M16 7.5H8.5a4.5 4.5 0 0 0 0 9H13" />
  </Icon>
);

/** Three marks in a row. */
export const MoreIcon = () => (
  <Icon>
    <path d="M3 10h2.5M8.75 10h2.5M14.5 10H17" stroke-width="2.5" />
  </Icon>
);

/** A cross. */
export const CloseIcon = () => (
  <Icon>
    <path d="m4.5 4.5 11 11m0-11-11 11" />
  </Icon>
);

/** A sheet on a sheet. */
export const CopyIcon = () => (
  <Icon>
    <path d="M7 7h9.5v9.5H7z" />
    <path d="M13 4V3.5H3.5V13H4" />
  </Icon>
);

/** Down onto a bench. */
export const TakeIcon = () => (
  <Icon>
    <path d="M10 3v9m-4-3.5 4 4 4-4M3.5 16.5h13" />
  </Icon>
);

/** A pencil stroke on a line. */
export const EditIcon = () => (
  <Icon>
    <path d="m4 13 8.5-8.5 3 3L7 16H4zM11 6l3 3" />
  </Icon>
);
