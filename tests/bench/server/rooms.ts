/** How much there is of everything, the same for each server. */

/** Boards that are measured, each with three documents. */
export const boards = 50;
/** Boards that only warm up. */
export const warmBoards = 10;
export const documentsPerBoard = 3;
/** Documents that are opened cold, one after another. */
export const largeDocuments = 12;
/** Bytes of such a document, as a full board has them. */
export const largeBytes = 158_000;

/** Paths of documents for a server that takes any path, and that asks for no cookie. */
export function plainPaths(kind: string, count: number) {
  return Array.from({ length: count }, (_, i) => ({
    path: `/${kind}-${i}`,
    writerCookie: "",
    hearerCookie: "",
  }));
}
