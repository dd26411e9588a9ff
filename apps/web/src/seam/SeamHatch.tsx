/** The cross-hatching of overlapping registers, defined once for every seam on the page. */

/** Takes no room; the seam refers to it by the name `seam-hatch`. */
export function SeamHatch() {
  return (
    <svg width="0" height="0" aria-hidden="true" class="seam-definitions">
      <defs>
        <pattern id="seam-hatch" width="6" height="6" patternUnits="userSpaceOnUse">
          <rect class="seam-hatch-ground" width="6" height="6" />
          <path class="seam-hatch-line" d="M0 6 L6 0 M0 0 L6 6" />
        </pattern>
      </defs>
    </svg>
  );
}
