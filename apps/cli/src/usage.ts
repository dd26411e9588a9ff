/** What `halflap --help` says. */
import { answersMax, leaningNames } from "@halflap/fitter/answer";

export const usage = `halflap: do two guitar parts fit together?

  halflap check FILE [--json] [--ways]
                                      flag where they do not
  halflap fit FILE [--lane upper|lower|both] [--leaning NAME] [--answers N] [--bars 1-8,13]
              [--take N] [--whole] [--why BAR[.SLOT]] [--copy OUT] [--json]
                                      the best grips for one part or both, under their wishes
  halflap copy --store STORE          list the boards of a store
  halflap copy --store STORE BOARD    write a board's JSON copy to the standard output

for whoever runs a server:
  halflap backup FILE --store STORE   write all that is stored into one file, while it runs
  halflap restore FILE --store STORE  put a backup in the store's place; the server is stopped
  halflap verify [--store STORE]      read every document and take, and tell what can't be read
  halflap raise-epochs [--store STORE]
                                      after a restore by other means, before the server starts:
                                      pages that knew more then keep their own copy apart
  halflap export-member MEMBER [--store STORE] [--takes FOLDER]
                                      all that is stored about a person, with their takes
  halflap delete-member MEMBER [--also MEMBER] [--store STORE] [--with-boards]
                                      take a person out of a stopped server's file, or of a
                                      database: their name goes, the band's music stays

FILE is a board's JSON copy, or for check a chart text; "-" is the standard input.
STORE is a server's SQLite file or the folder that it lies in; the server may be running.
Without --store the last four take the database of HALFLAP_DATABASE_URL, as a server does.

  --json       the answer as JSON
  --ways       and what could be done about each stop, fix and look
  --lane       whose part may change; the other stays as it is (both)
  --leaning    ${leaningNames.join(", ")} (plain)
  --answers    how many that differ, 1 to ${answersMax} (3)
  --bars       the bars that may change, as the chart counts them (all)
  --take       the answer that the rest is about (1)
  --whole      and what else would have to change, in either part, for no stop and no fix to be left
  --why        and what the next best grips of a bar, or of one of its chords, would cost
  --copy       write the JSON copy with the answer in it, with --whole all of it, into a new file
  --takes      where to write the sound of a member's takes
  --also       another id of the same person, who has another name there; once for each
  --with-boards  delete also the boards that nobody else could lead
  --help       this text
  --version    the version

Exit status: 0 when nothing is in the way, 1 while a stop or a fix stands that nobody has silenced,
on the board or in the answer, or when verify finds what can't be read, 2 when the command can't be
done, as under wishes that can't hold together, or its input not be read.
`;
