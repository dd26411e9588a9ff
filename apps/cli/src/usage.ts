/** What `halflap --help` says. */

export const usage = `halflap: do two guitar parts fit together?

  halflap check FILE [--json] [--ways]
                                      flag where they do not
  halflap copy --store STORE          list the boards of a store
  halflap copy --store STORE BOARD    write a board's JSON copy to the standard output

FILE is a board's JSON copy or a chart text, "-" is the standard input.
STORE is a server's SQLite file or the folder that it lies in; the server may be running.

  --json       findings as JSON
  --ways       and what could be done about each stop, fix and look
  --help       this text
  --version    the version

Exit status: 0 when nothing is in the way, 1 while a stop or a fix stands that nobody has silenced,
2 when the command or its input can't be read.
`;
