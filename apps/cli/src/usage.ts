/** What `halflap --help` says. */

export const usage = `halflap: do two guitar parts fit together?

  halflap check FILE [--json] [--ways]
                                      flag where they do not
  halflap copy --store STORE          list the boards of a store
  halflap copy --store STORE BOARD    write a board's JSON copy to the standard output

for whoever runs a server:
  halflap backup FILE --store STORE   write all that is stored into one file, while it runs
  halflap restore FILE --store STORE  put a backup in the store's place; the server is stopped
  halflap verify --store STORE        read every document and take, and tell what can't be read
  halflap export-member MEMBER --store STORE [--takes FOLDER]
                                      all that is stored about a person, with their takes
  halflap delete-member MEMBER --store STORE [--with-boards]
                                      take a person out of a stopped server's store: their name
                                      goes, the band's music stays

FILE is a board's JSON copy or a chart text, "-" is the standard input.
STORE is a server's SQLite file or the folder that it lies in; the server may be running.

  --json       the answer as JSON
  --ways       and what could be done about each stop, fix and look
  --takes      where to write the sound of a member's takes
  --with-boards  delete also the boards that nobody else could lead
  --help       this text
  --version    the version

Exit status: 0 when nothing is in the way, 1 while a stop or a fix stands that nobody has silenced,
or when verify finds what can't be read, 2 when the command can't be done or its input not be read.
`;
