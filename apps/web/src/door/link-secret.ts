/** The secret of a link: after the # of its address, so that no server log ever holds it. */

/** Base64url; 256 bits are 43 of these. */
const secretShape = /^[A-Za-z0-9_-]{20,100}$/;
const storedName = "halflap:join";

/** The link that carries a secret. */
export function linkOf(origin: string, secret: string): string {
  return `${origin}/join#${secret}`;
}

/**
 * Takes the secret out of the page's address; a reload of this tab finds it again until it is
 * dropped.
 */
export function takeSecret(): string | undefined {
  const fragment = location.hash.slice(1);
  if (fragment !== "") {
    history.replaceState(history.state, "", location.pathname + location.search);
    sessionStorage.setItem(storedName, fragment);
  }
  const secret = fragment || sessionStorage.getItem(storedName) || "";
  return secretShape.test(secret) ? secret : undefined;
}

/** Forgets the secret: it was redeemed, or is of no use. */
export function dropSecret(): void {
  sessionStorage.removeItem(storedName);
}
